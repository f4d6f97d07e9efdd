"""Quoting what a person wrote inside a message, so that it stays short and can always be printed."""


def quoted(text: str) -> str:
    """The text in double quotes, at most 40 characters of it, unprintable ones escaped."""
    start = text if len(text) <= 40 else text[:39] + "…"
    safe = "".join(c if c.isprintable() else c.encode("unicode_escape", "surrogatepass").decode() for c in start)
    return f'"{safe}"'
