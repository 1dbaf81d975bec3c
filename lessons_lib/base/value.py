"""A number that knows its unit, its spread and where it comes from."""


class Value(float):
    """A number that knows its unit, its spread and where it comes from."""

    def __new__(cls, number, unit, source, spread=None):
        value = super().__new__(cls, number)
        value.unit, value.source, value.spread = unit, source, spread
        return value

    def __getnewargs__(self):
        return float(self), self.unit, self.source, self.spread
