"""How a handout looks: one file, its style inside, for A4 and Letter, readable in grey."""
from html import escape

_STYLE = """
@page { margin: 14mm 15mm 17mm; @bottom-left { content: %(foot)s; font: 8.5pt sans-serif; }
        @bottom-right { content: counter(page) " / " counter(pages); font: 8.5pt sans-serif; } }
body { font: 10.5pt/1.45 sans-serif; max-width: 46em; margin: 1.5em auto; padding: 0 1em;
  color: #000; background: #fff; }
h1 { font-size: 1.7em; line-height: 1.2; margin: 0 0 0.5em; } h2 { font-size: 1.3em; margin: 1.2em 0 0.4em; }
h3 { font-size: 1.1em; margin: 0.8em 0 0.3em; } section > h3:first-child { margin-top: 0.3em; }
h1, h2, h3 { break-after: avoid; } p, li { orphans: 3; widows: 3; } p { margin: 0.5em 0; }
p:has(+ ul), p:has(+ ol), p:has(+ table), p:has(+ .alone), p:has(+ .listing) { break-after: avoid; }
ul, ol { margin: 0.4em 0; padding-left: 1.6em; }
li.tick { list-style: none; position: relative; margin: 0.25em 0; }
li.tick::before, .square { content: ""; display: inline-block; width: 0.8em; height: 0.8em; border: 1px solid #000;
  vertical-align: -0.08em; }
li.tick::before { position: absolute; left: -1.4em; top: 0.25em; } .square { margin-left: 1em; }
table { border-collapse: collapse; margin: 0.6em 0; break-inside: avoid; }
caption { text-align: left; font-weight: bold; }
th, td { border: 1px solid #666; padding: 0.15em 0.6em; text-align: left; vertical-align: top; }
math[display="block"] { margin: 0.5em 0; } math { font-size: 1.05em; }
blockquote, aside { border-left: 3px solid #444; margin: 0.7em 0; padding: 0.05em 0 0.05em 0.9em; break-inside: avoid; }
.foreword { font-size: 0.9em; }
code { font: 0.9em monospace; }
pre { font: 7.5pt/1.35 monospace; white-space: pre-wrap; overflow-wrap: anywhere; margin: 0; }
pre code { font: inherit; }
.listing { border: 1px solid #999; padding: 0.4em 0.7em; margin: 0.6em 0; break-inside: avoid; }
.output { border-top: 1px dotted #666; margin-top: 0.4em; padding-top: 0.4em; }
.output + .output { border: 0; margin-top: 0; padding-top: 0; }
section.exercise, section.prediction, section.seen { break-inside: avoid; }
section.exercise { border-top: 1px solid #000; margin: 0.9em 0; }
section.prediction { border: 1.5px solid #000; padding: 0.3em 0.9em 0.6em; margin: 0.8em 0; }
.working { border: 1px dotted #777; height: 24mm; }
.working span { font-size: 0.8em; color: #444; padding-left: 0.4em; }
.box { display: inline-block; min-width: 32mm; height: 8mm; border: 1.5px solid #000; vertical-align: middle; }
td .box { min-width: 15mm; height: 6mm; border-width: 1px; } .readings td { min-width: 30mm; }
.answer { margin: 0.5em 0; font-weight: bold; }
.lines div { height: 8mm; border-bottom: 1px solid #777; }
.page-only { font-style: italic; border-left: 3px dotted #444; padding-left: 0.7em; }
.panel { margin: 0.8em 0; }
figure { display: grid; grid-template-columns: auto 1fr; gap: 0 4mm; margin: 0 0 3mm; break-inside: avoid;
  align-items: start; }
figure img { max-width: 100%%; height: auto; } figcaption, .state { font-size: 8pt; line-height: 1.3; }
figcaption { min-width: 9em; } figcaption p { margin: 0.4em 0 0; } .state { grid-column: 1 / -1; margin: 0.2em 0 0; }
.alone { display: block; } .alone img { max-width: 115mm; }
dl, dd { margin: 0; } dt, dd { display: inline; } dd { font-weight: bold; }
hr { border: 0; border-top: 2px solid #000; margin: 0.8em 0; }
@media print { body { max-width: none; margin: 0; padding: 0; } .next-page { break-before: page; margin-top: 0; } }
"""


def page_bytes(foot, parts):
    """Return the whole file: *foot* is its title and runs at the foot of every printed page."""
    style = _STYLE % {"foot": _css_text(foot)}
    return "\n".join(("<!DOCTYPE html>", '<html lang="en"><head><meta charset="utf-8">',
                      '<meta name="viewport" content="width=device-width, initial-scale=1">',
                      f"<title>{escape(foot)}</title>", f"<style>{style}</style></head><body>",
                      *filter(None, parts), "</body></html>\n")).encode("utf-8")


def _css_text(text):
    """A text as CSS takes it, in quotes; what could end the style or the quotes is left out."""
    return '"' + "".join(letter for letter in text if letter not in '"\\<>\n') + '"'
