"""How long a text is to a chat platform; for who writes a message and for who only carries it."""


def units(text: str) -> int:
    """The length of a text as chat platforms count it, in UTF-16: a code point beyond U+FFFF takes two."""
    return len(text.encode("utf-16-le", "surrogatepass")) // 2
