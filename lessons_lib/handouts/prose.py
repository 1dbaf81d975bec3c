"""A page's text as HTML that stands alone: Markdown with tables, formulas as MathML, links as their words."""
import re
from html import escape

import mistune
from latex2mathml.converter import convert

_FORMULA = r"\$\$(?P<display_formula>[\s\S]+?)\$\$|\$(?P<inline_formula>[^$\n]+?)\$"
_FUNCTIONS = re.compile(r"(<mi>(?:sin|cos|tan|log|ln|min|max|exp)</mi>)(?=<m[in]>)")
_LETTERED = re.compile(r"<li>\(([a-z])\)")


def formula(latex, display="inline"):
    """Return a formula as MathML.

    Examples
    --------
    >>> "<mfrac>" in formula("a/b = \\\\frac{a}{b}", "block")
    True
    """
    math = convert(latex.strip(), display=display).replace(' xmlns="http://www.w3.org/1998/Math/MathML"', "")
    # a browser sets the name of a function tight against what follows it
    return _FUNCTIONS.sub(r'\1<mspace width="0.167em"/>', math)


def _parse(inline, found, state):
    display = found.group("display_formula")
    state.append_token({"type": "formula", "raw": display or found.group("inline_formula"),
                        "attrs": {"display": "block" if display else "inline"}})
    return found.end()


class _Renderer(mistune.HTMLRenderer):
    def formula(self, text, display):
        return formula(text, display)

    def link(self, text, url, title=None):
        """A link to another page is its words alone; an address in the network stands behind them in print."""
        return f"{text} ({escape(url)})" if "://" in url else text


_markdown = mistune.create_markdown(renderer=_Renderer(escape=True), plugins=["table"])
_markdown.inline.register("formula", _FORMULA, _parse, before="escape")


def to_html(text):
    """Return Markdown as HTML; options such as "(a) stays" get a box to tick."""
    return _LETTERED.sub(r'<li class="tick">(\1)', _markdown(text))
