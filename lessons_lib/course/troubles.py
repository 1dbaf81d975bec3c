"""What a command could not do, as one sentence for the instructor."""

EXPECTED = (OSError, ValueError)      # anything else is a fault of the program


def in_words(error):
    """Return the sentence for one of the `EXPECTED` errors.

    Examples
    --------
    >>> in_words(FileNotFoundError(2, "No such file or directory", "class_list.csv"))
    'class_list.csv could not be written or read: No such file or directory.'
    """
    if not isinstance(error, OSError):
        return str(error)
    where = error.filename2 or error.filename or "A file"
    if isinstance(error, PermissionError):
        return f"{where} cannot be written or read. Is it open in another program? Close it there and run this again."
    return f"{where} could not be written or read: {error.strerror or error}."
