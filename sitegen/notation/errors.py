"""The one error of the notation package."""


class NotationError(ValueError):
    """A short form that cannot be read.

    ``what`` says what is wrong, ``instead`` shows what to write instead.
    """

    def __init__(self, what: str, instead: str) -> None:
        super().__init__(f"{what}; {instead}")
        self.what = what
        self.instead = instead
