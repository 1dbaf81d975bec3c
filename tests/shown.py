"""What a panel shows, as a reader of the page meets it: the words of a widget, the alternative text of a picture."""
import html
import re


def words(widget):
    return html.unescape(re.sub("<[^>]+>", "", widget.value))


def alt(panel):
    return html.unescape(re.search(r'alt="([^"]*)"', panel.picture.value)[1])
