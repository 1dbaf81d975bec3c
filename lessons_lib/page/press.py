"""The button of a card with fields, which brings with its press what the page shows in them."""
from pathlib import Path

import anywidget
import ipywidgets as W
import traitlets


class Press(anywidget.AnyWidget):
    """Calls *pressed* without arguments once the *fields* (radio buttons, boxes for text) have what the page has.

    While the kernel answers what a field sent before, ipywidgets holds its newer values back, and the message of a
    plain button overtakes them: a card would be put down without its last choice.
    """

    _esm = traitlets.Unicode((Path(__file__).parent / "press.js").read_text(encoding="utf-8")).tag(sync=True)
    description = traitlets.Unicode().tag(sync=True)
    fields = traitlets.List().tag(sync=True)        # of each its model and the trait which the page changes

    def __init__(self, words, pressed, *fields, **more):
        self._pressed = pressed
        self._fields = [(field, "index" if isinstance(field, W.RadioButtons) else "value") for field in fields]
        super().__init__(description=words, **more,
                         fields=[{"model_id": field.model_id, "name": name} for field, name in self._fields])
        self.on_msg(self._heard)

    def click(self):
        """Press it, as the page does."""
        self._pressed()

    def _heard(self, _, values, __):
        for (field, name), value in zip(self._fields, values, strict=True):
            setattr(field, name, value)
        self.click()
