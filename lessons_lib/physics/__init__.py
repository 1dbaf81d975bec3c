"""One physical effect a file: pure functions and small frozen dataclasses, SI units throughout."""
