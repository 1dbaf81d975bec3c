"""What the artists of a picture hold: the points of its lines, its texts."""
from matplotlib.lines import Line2D
from matplotlib.text import Text


def marks(artists):
    return [artist.get_xydata().tolist() for artist in artists if isinstance(artist, Line2D)]


def texts(artists):
    return [artist.get_text() for artist in artists if isinstance(artist, Text)]
