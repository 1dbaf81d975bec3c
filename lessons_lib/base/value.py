"""A number that knows its unit, its spread and where it comes from."""


class Value(float):
    """A number that knows its unit, its spread and where it comes from."""

    def __new__(cls, number, unit, source, spread=None):
        value = super().__new__(cls, number)
        value.unit, value.source, value.spread = unit, source, spread
        return value

    def __getnewargs__(self):
        return float(self), self.unit, self.source, self.spread

    def like(self, number):
        """Another number with the same unit, source and, in proportion, the same spread.

        Examples
        --------
        >>> Value(100.0, "ohm", "an example", (95.0, 105.0)).like(20.0).spread
        (19.0, 21.0)
        """
        spread = self.spread and tuple(end * (number / float(self)) for end in self.spread)
        return Value(number, self.unit, self.source, spread)
