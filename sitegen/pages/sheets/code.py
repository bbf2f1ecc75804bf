"""The QR code (ISO/IEC 18004) that opens a session's page, as a drawing for its sheets."""

import zxingcpp

QUIET = 4
"""Modules kept white around the symbol: the standard's least."""

SIZE = 27.0
"""Millimetres on paper, quiet zone included (``.sheet-code`` in the style sheet)."""

LEAST_MODULE = 0.35
"""Millimetres of a module's side that a telephone still reads from a home printer's paper (common
practice, no source)."""


def code_svg(address: str) -> bytes:
    """The code as SVG, one unit for a module.

    Level M of error correction, for sheets hang where they get splashed and scuffed; level L for an
    address so long that modules would become too small.
    """
    rows = _modules(address, "M")
    if SIZE / (len(rows) + 2 * QUIET) < LEAST_MODULE:
        rows = _modules(address, "L")
    side = len(rows) + 2 * QUIET
    path = "".join(_runs(row, y + QUIET) for y, row in enumerate(rows))
    return (
        f'<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 {side} {side}" shape-rendering="crispEdges">'
        f'<path fill="#fff" d="M0 0h{side}v{side}H0z"/><path d="{path}"/></svg>\n'
    ).encode()


def _modules(address: str, level: str) -> list[bytes]:
    """Rows of the symbol: 0 for a dark module, 255 for a light one."""
    symbol = zxingcpp.create_barcode(address, zxingcpp.BarcodeFormat.QRCode, ec_level=level)
    pixels = memoryview(symbol.to_image(scale=1, add_quiet_zones=False))  # type: ignore[arg-type]
    side = pixels.shape[0]  # type: ignore[index]
    data = pixels.tobytes()
    return [data[start : start + side] for start in range(0, side * side, side)]


def _runs(row: bytes, y: int) -> str:
    """A row's dark modules as rectangles, neighbours in one."""
    drawn = []
    end = 0
    while (start := row.find(0, end)) >= 0:
        after = row.find(255, start)
        end = len(row) if after < 0 else after
        drawn.append(f"M{start + QUIET} {y}h{end - start}v1h-{end - start}z")
    return "".join(drawn)
