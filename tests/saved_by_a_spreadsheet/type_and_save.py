"""Open tables in LibreOffice under one locale, type into their cells, save them as CSV with two separators.

python type_and_save.py LOCALE TARGET PROFILE TABLE...
Cells are filled by FormulaLocal, which reads a text as the cell of this locale does when a person types it.
"""
import subprocess
import sys
import time
from pathlib import Path

import uno
from com.sun.star.beans import PropertyValue
from com.sun.star.connection import NoConnectException

NAMES = {"b010": "Zoë Müller-Ångström", "b011": "Łukasz \"Luk\" Ødegård; jun.", "b012": "René D'Été, 2nd"}
COMMENTS = ["Good: see 1.4", "", "Why? Say which soil, für wen"]
DATES = {"en-US": ["2030-10-31 18:00", "10/31/2030 6:00 PM", "11/2/2030 6:00 PM"],
         "de-DE": ["2030-10-31 18:00", "31.10.2030 18:00", "2.11.2030 18:00"]}
HALVES = {"en-US": ["2.5", "0.5", "1.5"], "de-DE": ["2,5", "0,5", "1,5"]}
SEPARATORS = {"comma": 44, "semicolon": 59}
_LOCALE = """<?xml version="1.0" encoding="UTF-8"?>
<oor:items xmlns:oor="http://openoffice.org/2001/registry">
<item oor:path="/org.openoffice.Setup/L10N"><prop oor:name="ooSetupSystemLocale" oor:op="fuse"><value>{}</value></prop>
</item></oor:items>"""


def typed(locale):
    """Return table -> column -> what is typed below its heading, from above."""
    first, second, days = HALVES[locale]
    return {"class_list": {"student": list(NAMES.values())}, "received": {"received": DATES[locale]},
            "extensions": {"bench": ["b011", "B012"], "lesson": ["", "01"], "days": [days, "1"]},
            "open_questions": {"marks": [first, second, "3"], "comment": COMMENTS}}


def properties(**values):
    return tuple(PropertyValue(Name=name, Value=value) for name, value in values.items())


def desktop(locale, profile):
    """Start the program under a locale, with a profile of its own; return (process, its desktop)."""
    (profile / "user").mkdir(parents=True)
    (profile / "user" / "registrymodifications.xcu").write_text(_LOCALE.format(locale), encoding="utf-8")
    pipe = f"pipe,name=tables_{locale}"
    process = subprocess.Popen(["soffice", "--headless", "--norestore", f"-env:UserInstallation={profile.as_uri()}",
                                f"--accept={pipe};urp;"])
    context = uno.getComponentContext()
    resolver = context.ServiceManager.createInstanceWithContext("com.sun.star.bridge.UnoUrlResolver", context)
    while True:
        try:
            there = resolver.resolve(f"uno:{pipe};urp;StarOffice.ComponentContext")
            return process, there.ServiceManager.createInstanceWithContext("com.sun.star.frame.Desktop", there)
        except NoConnectException:
            time.sleep(0.5)


def type_and_save(program, table, columns, target):
    """Open *table* as the dialog proposes for a comma between cells, type into *columns*, save with each separator."""
    document = program.loadComponentFromURL(table.as_uri(), "_blank", 0, properties(
        Hidden=True, FilterName="Text - txt - csv (StarCalc)", FilterOptions="44,34,76,1,,0,false,false"))
    sheet = document.Sheets.getByIndex(0)
    head = []
    while name := sheet.getCellByPosition(len(head), 0).String:
        head.append(name)
    for name in columns:        # an empty table gets its heading typed, too
        if name not in head:
            sheet.getCellByPosition(len(head), 0).FormulaLocal = name
            head.append(name)
    for name, texts in columns.items():
        for line, text in enumerate(texts, start=1):
            sheet.getCellByPosition(head.index(name), line).FormulaLocal = text
    for name, separator in SEPARATORS.items():
        path = target / name / table.name
        path.parent.mkdir(parents=True, exist_ok=True)
        # the dialog's defaults: UTF-8, cells as they are shown, quotes where they are needed
        document.storeToURL(path.as_uri(), properties(FilterName="Text - txt - csv (StarCalc)",
                                                      FilterOptions=f"{separator},34,76,1,,0,false,true,false"))
    document.close(True)


if __name__ == "__main__":
    _, locale, target, profile, *tables = sys.argv
    process, program = desktop(locale, Path(profile).resolve())
    for table in map(Path, tables):
        type_and_save(program, table, typed(locale)[table.stem], Path(target).resolve())
    program.terminate()
    process.wait()
