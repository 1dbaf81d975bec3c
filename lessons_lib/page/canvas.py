"""Figures as HTML images with an alternative text: moving ones for panels, small still ones for stored pages."""
import base64
import html
import io

import matplotlib
import numpy as np
from IPython.display import display
from matplotlib.backends.backend_agg import FigureCanvasAgg, RendererAgg
from matplotlib.text import Text
from PIL import Image

STILL_COLOURS = 64
FRAME_COLOURS = 256
FEW_COLOURS = 8000      # a line drawing has some thousand at most, with its soft edges; a field map has more


def _pixels(figure):
    canvas = figure.canvas
    size = canvas.get_width_height()
    return Image.frombuffer("RGBA", size, bytes(canvas.buffer_rgba()), "raw", "RGBA", 0, 1).convert("RGB")


def _in_palette(picture, colours):
    # this method keeps the colours of thin lines
    return _ground_kept(picture.quantize(colours, method=Image.Quantize.MAXCOVERAGE, dither=Image.Dither.NONE), picture)


def _ground_kept(few, picture):
    """A palette takes the ground for a shade darker than it is: give its entry the true colour."""
    palette = few.getpalette()
    ground = 3 * few.getpixel((0, 0))
    palette[ground:ground + 3] = picture.getpixel((0, 0))
    few.putpalette(palette)
    return few


def _ink_of(artist, empty):
    """What an artist draws, alone: left and lower edge (pixels), RGBA rows from below; None for nothing."""
    empty.clear()
    artist.draw(empty)
    pixels = np.asarray(empty.buffer_rgba())
    ink = pixels.view(np.uint32)[..., 0]    # four bytes at a time
    rows, columns = (np.flatnonzero(ink.any(axis=axis)) for axis in (1, 0))
    if not rows.size:
        return None
    inked = pixels[rows[0]:rows[-1] + 1, columns[0]:columns[-1] + 1]
    return columns[0], len(pixels) - rows[-1] - 1, inked[::-1].copy()


def image_tag(picture, alt, **png):
    """An <img> of a Pillow picture: alternative text, true size, never wider than the page, on white."""
    data = io.BytesIO()
    picture.save(data, "png", **png)
    width, height = picture.size
    return (f'<img alt="{html.escape(alt, quote=True)}" width="{width}" height="{height}" '
            f'style="max-width:100%;height:auto;background:white" '
            f'src="data:image/png;base64,{base64.b64encode(data.getvalue()).decode("ascii")}">')


class Canvas:
    """A figure whose axes and labels are drawn once; each frame draws the moving artists over them.

    Parameters
    ----------
    figure : matplotlib.figure.Figure
        With fixed limits; artists that move are animated.
    draw : callable
        draw(data) updates the artists and returns them in drawing order.
    """

    def __init__(self, figure, draw):
        self.figure, self._draw, self._ground, self._palette, self._stamps = figure, draw, None, None, {}
        self._for_stamps = None

    def frame(self, data, alt):
        """The <img> for this data. Drawing the ground waits for the first frame."""
        canvas = self.figure.canvas
        artists = self._draw(data)
        if self._ground is None:
            canvas.draw()
            self._ground = canvas.copy_from_bbox(self.figure.bbox)
        canvas.restore_region(self._ground)
        for artist in artists:
            self._paint(artist, canvas.get_renderer())
        return image_tag(self._light(_pixels(self.figure)), alt, compress_level=1)

    def _set_out(self, data):
        self._stamps.clear()
        self._draw(data)

    def _paint(self, artist, renderer):
        """Letters cost most of a frame: a text is written once, and stamped again while it says the same."""
        if type(artist) is not Text:
            return artist.draw(renderer)
        if artist.stale or artist not in self._stamps:
            if self._for_stamps is None:    # one for all texts: each keeps the one that it was drawn with, 2 MB
                self._for_stamps = RendererAgg(renderer.width, renderer.height, renderer.dpi)
            self._stamps[artist] = _ink_of(artist, self._for_stamps)
        if (stamp := self._stamps[artist]) is not None:
            renderer.draw_image(renderer.new_gc(), *stamp)

    def _light(self, picture):
        """A line drawing in the palette of its first frame: it is packed five times as fast as in true colours."""
        if self._palette is None:
            few = picture.getcolors(FEW_COLOURS) is not None
            self._palette = _in_palette(picture, FRAME_COLOURS) if few else False
        if not self._palette:
            return picture
        return _ground_kept(picture.quantize(palette=self._palette, dither=Image.Dither.NONE), picture)

    def rest(self):
        """Give the memory of all pixels back; the next frame draws the ground again."""
        self._ground, self._palette, self._for_stamps = None, None, None
        self._stamps.clear()
        FigureCanvasAgg(self.figure)        # the former one held the pixels

    def still(self, data, alt):
        """Show this data as a still picture; the moving frames do not notice."""
        self._set_out(data)
        show(self.figure, alt)

    def vector(self, data):
        """The SVG of this data, for print: letters as outlines, no date, equal data give equal bytes."""
        self._set_out(data)
        drawing = io.BytesIO()
        with matplotlib.rc_context({"svg.hashsalt": "lesson", "svg.fonttype": "path"}):
            self.figure.savefig(drawing, format="svg", facecolor="white", metadata={"Date": None, "Creator": None})
        return drawing.getvalue()


def still_tag(figure, alt):
    """The <img> of a figure in a palette of 64 colours, without any metadata: equal figures give equal bytes."""
    data = io.BytesIO()
    figure.savefig(data, format="png", dpi=figure.dpi, facecolor="white")
    return image_tag(_in_palette(Image.open(data).convert("RGB"), STILL_COLOURS), alt, optimize=True)


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
        raise ValueError(f"alt must be a text that says what the figure shows; got {alt!r}.")
    display({"text/html": still_tag(figure, alt), "text/plain": alt}, raw=True)
