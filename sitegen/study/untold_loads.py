"""Kit of which nobody wrote whether it is a load: no limit in kilograms can be kept with it."""

from sitegen.model import Details, Kit
from sitegen.study.forms import Forms


def untold_loads(details: Details, forms: Forms) -> list[Kit]:
    """The pieces that some form takes and of which it is not told."""
    taken = {piece for form in forms.values() for piece in form.kit}
    return [piece for piece in details.kit.values() if piece.load_untold and piece.id in taken]


def untold_load(piece: Kit, who: str) -> tuple[str, str]:
    """What is told of such a piece, and what to write; ``who`` may hold so many kilograms and no more."""
    return (
        f"nothing says whether {piece.name!r} is a load, so what takes it is given to nobody with: {who}",
        f"under {piece.id} write load: no if it is none (a chair, a wall, a towel), else what it weighs "
        "(weighs: 4 kg) or holds (holds: 5 l, holds: 15 kg)",
    )
