"""The page of words, symbols and formulas says what the lessons say: every term, every letter, every formula of theirs.

Where a term first comes and which lessons have a letter is found again in the pages' own text.
"""
import re
from collections import Counter
from html import escape
from typing import NamedTuple

import pytest
from scipy.constants import mu_0, pi

from lessons_lib.handouts.page import words_on_paper
from notebooks import WORDS, lessons, read, tidy

PAGES = {path.name: path for path in lessons()}
NAMES = list(PAGES)
every_page = pytest.mark.parametrize("name", NAMES)

# Bold that is no term, with the reason. What ends in a full stop, colon or question mark is a run-in heading.
NO_TERM = {
    "a run-in heading": {
        "after this lesson you can", "you need", "on your own", "in a class", '"more ohms, hotter,"', "your own files",
        "before you see any fit", "more than two readings", "the library's fit", "place the curves first", "listen",
        "raw voltages", "the second model", "at 120 hz", "at 1 khz",
        "at 10 khz", "above it"},
    "emphasis": {"zero", "against", "force", "invented", "in the magnet", "through the coil", "in the string"},
    "a key, a file or a name in code": {"shift and enter", "my_work", "induced_voltage"},
    "a result of a worked example": {
        "1.07 µwb", "0.925 µwb", "1.70 µwb", "0.294", "38.2 ka/m", "−135 ka/m", "141 ma/wb", "11.8 µwb",
        "9100 turns"},
    "a letter, in the list of symbols": {"b", "h", "j", "s", "q_m"},
}
# Terms whose word comes earlier as another word.
ANOTHER_WORD_BEFORE = {
    "alternating": "alternating current", "bend": "a curve, or a string, that bends", "core": "core and further",
    "fit": "a number fits a seal", "load": "the load line", "partial": "a partial short circuit",
    "pot": "the steel pot", "reach": "to reach", "spread": "flux spreads", "strength": "field strength",
    "waves": "waves on a string"}


class Term(NamedTuple):
    """An entry of the glossary: the term, its text, and the pages that it links, the first one first."""

    name: str
    text: str
    pages: list


class Symbol(NamedTuple):
    """A row of the list of symbols: its letters, what they are, the unit, and the numbers of the lessons."""

    letters: list
    meaning: str
    unit: str
    lessons: set


def markdown(path):
    return "\n\n".join(cell.source for cell in read(path).cells if cell.cell_type == "markdown")


def part(heading):
    """The text of one of the page's parts, without that of the next."""
    return re.search(rf"^## {heading}\n(.+?)(?=^## |\Z)", markdown(WORDS), re.MULTILINE | re.DOTALL)[1]


def glossary():
    found = re.findall(r"^- \*\*(.+?)\*\*(?: \([^)]*\))?: (.+)$", part("Words"), re.MULTILINE)
    return [Term(name, text, re.findall(r"\]\((\d\d_\w+\.ipynb)\)", text)) for name, text in found]


def list_of_symbols():
    rows = re.findall(r"^\| (\$.+?\$) \| (.+?) \| (.+?) \| ([\d, ]+) \|$", part("Symbols"), re.MULTILINE)
    return [Symbol([one.strip("$ ") for one in letters.split("$, $")], meaning, unit, set(map(int, where.split(", "))))
            for letters, meaning, unit, where in rows]


def sheet_of_formulas():
    """The number of a lesson -> its formulas on the sheet."""
    parts = re.split(r"^### (?:Lesson|Page) 0?(\d)\..*$", part("Formulas"), flags=re.MULTILINE)
    return {int(number): re.findall(r"\$\$(.+?)\$\$", text) for number, text in zip(parts[1::2], parts[2::2])}


def formulas(text):
    return [display or inline for display, inline in re.findall(r"\$\$(.+?)\$\$|\$([^$]+?)\$", text, re.DOTALL)]


def said(name):
    """What a lesson says: no formulas, sources or titles of other pages; emphasis is taken off."""
    text = re.split(r"^## Sources", markdown(PAGES[name]), flags=re.MULTILINE)[0]
    text = re.sub(r"^\d\. \[.*$", "", text, flags=re.MULTILINE)
    text = re.sub(r"\$\$.+?\$\$|\$[^$]+\$", " ", text, flags=re.DOTALL)
    return " ".join(text.replace("*", "").split())


def comes(term, text):
    case = 0 if term in ("Q", "AWG") else re.IGNORECASE
    return bool(re.search(rf"(?<![\w-]){re.escape(term)}(?:e?s)?(?![\w-])", text, case))


def one_form(term):
    """The same for singular and plural, small and capital."""
    return term.lower().strip(" ,;").removesuffix("s")


def letters_of(formula):
    """The letters of a formula in LaTeX with their index, functions and signs apart."""
    plain = re.sub(r"\\(?:text|mathrm)\{[^}]*\}", " ", formula)
    whole = re.findall(r"\(BH\)_\{max\}", plain)
    plain = plain.replace(r"(BH)_{max}", " ")
    plain = re.sub(r"\\(?:left|right|[Bb]ig|d?frac|sqrt|sum|sin|cos|min|log|q?quad|phantom|approx|sim|propto|cdot|pi"
                   r"|[,;!|])(?![a-zA-Z])", " ", plain)
    return {*whole, *re.findall(r"(?:\\hat )?(?:\\[A-Za-z]+|[A-Za-z])(?:_(?:\{[^}]*\}|\w))?", plain)}


def letters_in_lessons():
    return {(letter, number) for number, path in enumerate(PAGES.values())
            for formula in formulas(markdown(path)) for letter in letters_of(formula)}


def tight(latex):
    return re.sub(r"\s", "", latex).rstrip(".,")


# ---- words -----------------------------------------------------------------------------------------------------------

def bold_terms(name):
    """What is bold on a page and no run-in heading; in an exercise it is the values given and the parts of a report."""
    text = "\n\n".join(re.split(r"^### Exercise", cell.source, flags=re.MULTILINE)[0]
                       for cell in read(PAGES[name]).cells if cell.cell_type == "markdown")
    text = re.sub(r"`[^`\n]+`", " ", text)      # there ** is a power
    bold = [" ".join(one.split()) for one in re.findall(r"\*\*(.+?)\*\*", text, re.DOTALL)]
    return {one for one in bold if not re.search(r'[.:?]"?$', one)}


@every_page
def test_every_bold_term_is_in_the_glossary(name):
    known = {one_form(term.name) for term in glossary()}
    apart = {one for some in NO_TERM.values() for one in some}
    assert {one for one in bold_terms(name) if one.lower() not in apart and one_form(one) not in known} == set()


def test_no_exception_is_left_over():
    bold = {one.lower() for name in NAMES for one in bold_terms(name)}
    assert {one for some in NO_TERM.values() for one in some} - bold == set()
    letters = {letter.lower() for row in list_of_symbols() for letter in row.letters}
    assert NO_TERM["a letter, in the list of symbols"] <= letters
    assert set(ANOTHER_WORD_BEFORE) <= {term.name for term in glossary()}


def test_the_glossary_is_in_the_order_of_the_alphabet_and_has_each_term_once():
    names = [term.name.lower().replace("è", "e") for term in glossary()]
    assert len(names) > 100 and names == sorted(set(names))


@pytest.mark.parametrize("term", glossary(), ids=lambda term: term.name)
def test_a_term_first_comes_where_the_glossary_says(term):
    first, *explained = term.pages
    assert comes(term.name, said(first))
    before = [name for name in NAMES[:NAMES.index(first)] if comes(term.name, said(name))]
    assert before == [] or term.name in ANOTHER_WORD_BEFORE
    assert all(comes(term.name, said(name)) and name > first for name in explained)


@pytest.mark.parametrize("word", ANOTHER_WORD_BEFORE)
def test_a_word_that_is_let_through_does_come_earlier(word):
    [term] = [term for term in glossary() if term.name == word]
    assert any(comes(word, said(name)) for name in NAMES[:NAMES.index(term.pages[0])])


# ---- symbols ---------------------------------------------------------------------------------------------------------

def test_the_list_has_each_letter_of_the_pages_formulas_with_its_lesson_and_no_other():
    listed = {(letter, number) for row in list_of_symbols() for letter in row.letters for number in row.lessons}
    assert letters_in_lessons() - listed == set() and listed - letters_in_lessons() == set()


@pytest.mark.parametrize("formula, letters", [
    (r"e = -\frac{d\Lambda}{dt} = -N\,\frac{d\Phi}{dt}", {"e", "d", r"\Lambda", "t", "N", r"\Phi"}),
    (r"\hat e = N\,S\,2\pi f\,a", {r"\hat e", "N", "S", "f", "a"}),
    (r"g = \frac{(BH)_{max}}{B_r H_c}", {"g", "(BH)_{max}", "B_r", "H_c"}),
    (r"20\log_{10}\big(R_{load}/(R+R_{load})\big)", {"R_{load}", "R"}),
    (r"1\ \text{Oe} = 79.58\ \text{A/m}", set())])
def test_letters_of_a_formula_counted_by_hand(formula, letters):
    assert letters_of(formula) - {r"_{10}"} == letters


def test_only_one_letter_has_two_meanings_in_one_lesson():
    """Lesson 2 says so itself: resistance and reluctance share the letter R."""
    rows = Counter((letter, number) for row in list_of_symbols() for letter in row.letters for number in row.lessons)
    assert {pair: count for pair, count in rows.items() if count > 1} == {("R", 2): 2}


# ---- formulas --------------------------------------------------------------------------------------------------------

@every_page
def test_each_formula_of_the_sheet_is_on_its_page(name):
    page = [tight(one) for one in formulas(markdown(PAGES[name]))]
    on_sheet = sheet_of_formulas()[int(name[:2])]
    assert on_sheet
    assert [one for one in on_sheet if not any(tight(one) in formula for formula in page)] == []


@every_page
def test_each_formula_that_a_page_sets_apart_is_on_the_sheet(name):
    on_sheet = [tight(one) for one in sheet_of_formulas()[int(name[:2])]]
    apart = [tight(one) for one in re.findall(r"\$\$(.+?)\$\$", markdown(PAGES[name]), re.DOTALL)]
    assert [one for one in apart if not any(known in one for known in on_sheet)] == []


def test_each_formula_has_its_condition_under_it():
    blocks = [block for block in part("Formulas").split("\n\n") if block.strip() and not block.startswith("#")][1:]
    assert all(block.strip().startswith("$$") for block in blocks[::2])
    assert all(len(block.split()) >= 4 and "$$" not in block for block in blocks[1::2])
    assert len(blocks) == 2 * sum(map(len, sheet_of_formulas().values()))


def test_the_formulas_conditions_use_only_letters_of_the_list():
    known = {letter for row in list_of_symbols() for letter in row.letters}
    assert {letter for one in formulas(part("Formulas")) for letter in letters_of(one)} - {r"_{10}"} <= known


# ---- numbers in the words, and the page ------------------------------------------------------------------------------

def test_numbers_in_the_glossary():
    """AWG after ASTM B258 (from memory): 39 steps are a factor 92 in diameter; the oersted by definition."""
    text = {term.name: term.text for term in glossary()}
    assert "5.9 %" in text["semitone"] and round(100 * (2 ** (1 / 12) - 1), 1) == 5.9
    assert "very nearly half" in text["AWG"] and 92 ** (-2 * 3 / 39) == pytest.approx(0.5, rel=5e-3)
    assert "79.58 A/m" in text["oersted"] and round(1e-4 / mu_0, 2) == 79.58
    assert "4π·10⁻⁷" in text["magnetic constant"] and mu_0 == pytest.approx(4 * pi * 1e-7, rel=1e-8)
    assert "a tenth" in text["decibel"] and 10 ** (-20 / 20) == 0.1 and round(10 ** (-6 / 20), 2) == 0.5


def test_the_page_is_one_to_read_as_it_is_stored():
    stored = read(WORDS)
    assert tidy(read(WORDS)) == stored and {cell.cell_type for cell in stored.cells} == {"markdown"}


def test_on_paper_every_term_letter_and_formula_is_there():
    page = words_on_paper(read(WORDS)).decode()
    assert all(f"<strong>{escape(term.name, quote=False)}</strong>" in page for term in glossary())
    assert page.count("<tr>") == 1 + len(list_of_symbols()) and "href" not in page and "$" not in page
    assert page.count('<math display="block">') == sum(map(len, sheet_of_formulas().values()))


@every_page
def test_each_page_links_it_at_its_end(name):
    assert "[Words and symbols](words_and_symbols.ipynb)" in read(PAGES[name]).cells[-1].source
