"""Pictures as HTML images with an alternative text, for pages that are read without a kernel."""
import base64
import html
import re

from IPython.display import display

from lessons_lib.base.checks import refuse
from lessons_lib.pictures.vector import Drawing


def image_tag(drawing, alt):
    """An <img> of an SVG (bytes): alternative text, true size, never wider than the page, on white."""
    width, height = (round(float(one) * 4 / 3) for one in re.search(
        rb'width="([\d.]+)pt" height="([\d.]+)pt"', drawing).groups())
    return (f'<img alt="{html.escape(alt, quote=True)}" width="{width}" height="{height}" '
            f'style="max-width:100%;height:auto;background:white" '
            f'src="data:image/svg+xml;base64,{base64.b64encode(drawing).decode("ascii")}">')


def show_drawing(drawing, alt, *, fold=""):
    """Show an SVG (bytes) under the cell with an alternative text, as `show` does a figure.

    With a *fold* the picture is closed under these words: what a panel answers is not in view before the prediction.
    """
    picture = image_tag(drawing, alt)
    if fold:
        picture = f'<details class="lesson-fold"><summary>{html.escape(fold)}</summary>{picture}</details>'
    display({"text/html": picture, "text/plain": alt}, raw=True)


def still_tag(figure, alt):
    """The <img> of a figure, without any metadata: equal figures give equal bytes."""
    return image_tag(Drawing(figure, lambda _: ()).whole(None), alt)


def show(figure, alt):
    """Show a matplotlib figure under the cell as a small picture with an alternative text.

    Parameters
    ----------
    figure : matplotlib.figure.Figure
    alt : str
        The message of the figure and three values, for those who cannot see it.

    Raises
    ------
    ValueError
        If the alternative text is empty.

    Notes
    -----
    The page takes the picture as HTML, for JupyterLab drops the alternative text of plain image outputs. Nothing is
    returned, so that a cell may end with it.

    Examples
    --------
    >>> from lessons_lib.pictures.style import new_figure
    >>> "alt=" in still_tag(new_figure(width=1, height=1), "an empty square")
    True
    """
    if not isinstance(alt, str) or not alt.strip():
        refuse("alt", "a text that says what the figure shows", alt)
    display({"text/html": still_tag(figure, alt), "text/plain": alt}, raw=True)
