"""Opens files in LibreOffice, works every formula out anew and says what each cell comes to: jobs as JSON on
standard input, answers as JSON on standard output.

A job: {"path": file, "inputs": [{name: number or words}], "save": path or null, "filter": what it calls the format that is
saved, xlsx where left out}. An answer: {"cells": [[sheet, row, column, kind, value, formula]], "after": [a list for each
of the inputs, typed by itself, of the cells that differ then], "pictures": [[sheet, width, height]]}. A kind
is number, text or error; of an error the value is its number there.

It runs with the Python that python3-uno belongs to, starts LibreOffice without a window and with settings of its
own, and ends it.
"""

import json
import sys
import tempfile
from pathlib import Path

import uno  # noqa: F401 (lets what is of com.sun.star be imported)
from com.sun.star.beans import PropertyValue

sys.dont_write_bytecode = True
sys.path.insert(0, str(Path(__file__).resolve().parent.parent / "scripts"))

from libreoffice import started  # noqa: E402


def told(name, value):
    one = PropertyValue()
    one.Name, one.Value = name, value
    return one


# com.sun.star.sheet.FormulaResult.ERROR
ERROR_RESULTS = 4


def errors_of(sheet):
    """Places of the formulas in error."""
    found = set()
    for place in sheet.queryFormulaCells(ERROR_RESULTS).RangeAddresses:
        for row in range(place.StartRow, place.EndRow + 1):
            found.update((row, column) for column in range(place.StartColumn, place.EndColumn + 1))
    return found


def used_of(sheet):
    """All that is in use of a sheet."""
    cursor = sheet.createCursor()
    cursor.gotoEndOfUsedArea(False)
    last = cursor.RangeAddress
    return sheet.getCellRangeByPosition(0, 0, last.EndColumn, last.EndRow)


def formulas_of(book):
    """The formulas of each sheet, row by row."""
    return [used_of(sheet).FormulaArray for sheet in book.Sheets]


def cells_of(book, formulas):
    """Every cell that is not empty, as it stands now."""
    found = []
    for sheet, written in zip(book.Sheets, formulas):
        errors = errors_of(sheet)
        name = sheet.Name
        for row, (values, line) in enumerate(zip(used_of(sheet).DataArray, written)):
            for column, (value, text) in enumerate(zip(values, line)):
                formula = text if text.startswith(("=", "{=")) else None
                if (row, column) in errors:
                    code = sheet.getCellByPosition(column, row).getError()
                    found.append([name, row, column, "error", code, formula])
                elif isinstance(value, str):
                    if value != "" or formula is not None:
                        found.append([name, row, column, "text", value, formula])
                else:
                    found.append([name, row, column, "number", value, formula])
    return found


def cell_named(book, name):
    place = book.NamedRanges.getByName(name).ReferredCells.RangeAddress
    return book.Sheets.getByIndex(place.Sheet).getCellByPosition(place.StartColumn, place.StartRow)


def after(book, inputs, before, formulas):
    """What differs once the inputs are typed; they are taken back."""
    cells = [(cell_named(book, name), value) for name, value in inputs.items()]
    kept = [cell.Formula for cell, _ in cells]
    for cell, value in cells:
        if isinstance(value, str):
            cell.String = value
        else:
            cell.Value = value
    known = {tuple(one[:3]): one for one in before}
    found = [one for one in cells_of(book, formulas) if known.get(tuple(one[:3])) != one]
    for (cell, _), written in zip(cells, kept):
        cell.Formula = written
    return found


def pictures_of(book):
    """Every picture: its sheet, and how large it stands there in 1/100 mm."""
    return [
        [sheet.Name, shape.Size.Width, shape.Size.Height]
        for sheet in book.Sheets
        for shape in sheet.DrawPage
        if shape.ShapeType == "com.sun.star.drawing.GraphicObjectShape"
    ]


def judged(desktop, job):
    address = Path(job["path"]).resolve().as_uri()
    book = desktop.loadComponentFromURL(address, "_blank", 0, (told("Hidden", True),))
    try:
        book.calculateAll()
        formulas = formulas_of(book)
        before = cells_of(book, formulas)
        changed = [after(book, one, before, formulas) for one in job.get("inputs") or []]
        if job.get("save"):
            book.calculateAll()
            kind = job.get("filter") or "Calc MS Excel 2007 XML"
            book.storeToURL(Path(job["save"]).resolve().as_uri(), (told("FilterName", kind),))
        return {"cells": before, "after": changed, "pictures": pictures_of(book)}
    finally:
        book.close(True)


def main():
    jobs = json.load(sys.stdin)
    with tempfile.TemporaryDirectory() as folder:
        office, desktop = started(folder)
        try:
            json.dump([judged(desktop, job) for job in jobs], sys.stdout)
        finally:
            try:
                desktop.terminate()
            except Exception:  # It is ended all the same.
                pass
            office.wait(timeout=30)


main()
