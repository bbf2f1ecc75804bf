"""What can go wrong at a target, in words for a trainer, with what to do about it."""

import errno

AGAIN = "run the same command again"
"""What to do once the cause is put right: a second run finishes the work of the first."""

FULL = (errno.ENOSPC, errno.EDQUOT, errno.EFBIG)
FORBIDDEN = (errno.EACCES, errno.EPERM, errno.EROFS)
GONE = (errno.ECONNRESET, errno.EPIPE, errno.ETIMEDOUT, errno.EHOSTUNREACH, errno.ENETUNREACH, errno.ESTALE)


class TargetError(Exception):
    """The target cannot do what was asked of it. ``what`` went wrong, ``advice`` says what to do."""

    def __init__(self, what: str, advice: str = "") -> None:
        super().__init__(what)
        self.what, self.advice = what, advice


class MissingExtra(TargetError):
    """A library that this kind of target needs is not installed."""

    def __init__(self, library: str, extra: str) -> None:
        super().__init__(f"{library} is not installed", f'install it with: pip install "sitegen[{extra}]"')


class CutOff(TargetError):
    """The connection broke or was never made."""


class AccessRefused(TargetError):
    """The target does not let us."""


class Full(TargetError):
    """There is no room left."""


class NotFound(TargetError):
    """There is no such target."""


class TargetBusy(TargetError):
    """Somebody else is publishing, or has published meanwhile."""


class Missing(Exception):
    """There is no file at an address of the target."""


def full(where: str, reason: str) -> TargetError:
    """No room left at a target."""
    return Full(f"{where} is full ({reason})", f"make room there, then {AGAIN}")


def explain(error: OSError, where: str) -> TargetError:
    """A system error at a target as a :class:`TargetError`."""
    reason = error.strerror or str(error) or type(error).__name__
    about = f"{error.filename}: " if error.filename else ""
    if error.errno in FULL:
        return full(where, reason)
    if error.errno in FORBIDDEN or isinstance(error, PermissionError):
        return AccessRefused(
            f"{where} does not let us in ({about}{reason})", "have the rights there put right"
        )
    if isinstance(error, ConnectionError | TimeoutError) or error.errno in GONE:
        return CutOff(f"the connection to {where} broke ({reason})", f"{AGAIN} to go on")
    return TargetError(f"{where}: {about}{reason}", f"put that right, then {AGAIN}")
