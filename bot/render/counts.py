"""Numbers with their nouns."""


def counted(number: int, noun: str) -> str:
    """Return "1 week", "2 weeks"."""
    return f"{number} {noun}{'s' * (number != 1)}"
