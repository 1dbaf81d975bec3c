"""Words that follow a number."""


def plural(count, one, several):
    """Return the words for so many things: *one* where *count* is 1, else *several*.

    Examples
    --------
    >>> plural(1, "row stands", "rows stand"), plural(2, "row stands", "rows stand")
    ('row stands', 'rows stand')
    """
    return one if count == 1 else several
