"""Measures LibreOffice with one sheet: `office.py JOB`, JSON in and out. Times are ms, medians.

It runs with the Python that python3-uno belongs to, starts LibreOffice without a window and with
settings of its own, and ends it.
"""

import json
import statistics
import sys
import tempfile
import time
from pathlib import Path

import uno  # noqa: F401 (lets what is of com.sun.star be imported)
from com.sun.star.beans import PropertyValue

sys.dont_write_bytecode = True
sys.path.insert(0, str(Path(__file__).resolve().parent.parent / "scripts"))

from libreoffice import started  # noqa: E402

WARM_UP = 5


def opened(desktop, path):
    hidden = PropertyValue()
    hidden.Name, hidden.Value = "Hidden", True
    address = Path(path).resolve().as_uri()
    return desktop.loadComponentFromURL(address, "_blank", 0, (hidden,))


def resident(office):
    """MB that the process and those it started keep in memory."""
    parents, sizes = {}, {}
    for status in Path("/proc").glob("[0-9]*/status"):
        try:
            told = dict(
                line.split(":", 1) for line in status.read_text().splitlines() if ":" in line
            )
        except OSError:
            continue
        parents[int(told["Pid"])] = int(told["PPid"])
        sizes[int(told["Pid"])] = int(told.get("VmRSS", "0 kB").split()[0]) * 1024
    ours = {office.pid}
    while True:
        more = {pid for pid, parent in parents.items() if parent in ours} - ours
        if not more:
            return sum(sizes.get(pid, 0) for pid in ours) / 1e6
        ours |= more


def main():
    job = json.loads(sys.argv[1])
    rounds = job["rounds"]

    def timed(work, after=lambda: None):
        times = []
        for i in range(WARM_UP + rounds):
            began = time.perf_counter()
            work()
            took = (time.perf_counter() - began) * 1000
            after()
            if i >= WARM_UP:
                times.append(took)
        return statistics.median(times)

    entries = 0

    def entry():
        nonlocal entries
        entries += 1
        return 72 + (entries % 97) / 4

    with tempfile.TemporaryDirectory() as folder:
        office, desktop = started(folder)
        try:
            before = resident(office)
            document = opened(desktop, job["sheet"])
            sheet = document.Sheets.getByIndex(0)
            cursor = sheet.createCursor()
            cursor.gotoEndOfUsedArea(False)
            last_row, last_column = cursor.RangeAddress.EndRow, cursor.RangeAddress.EndColumn
            cell = lambda at: sheet.getCellByPosition(at["column"], at["row"])
            whole = sheet.getCellRangeByPosition(0, 0, last_column, last_row)
            results = sheet.getCellRangeByPosition(last_column, 0, last_column, last_row)
            whole.getDataArray()
            figures = {"resident": resident(office) - before}

            figures["call"] = timed(document.isAutomaticCalculationEnabled)

            # It works a value out when somebody asks for it: reading them back is part of the edit.
            source = cell(job["input"])
            last = cell(job["results"][-1])

            def read_back(at, column):
                def work():
                    at.setValue(entry())
                    column()

                return timed(work)

            figures["back"] = read_back(source, results.getDataArray)
            figures["few"] = read_back(cell(job["few"]), cell(job["fewest"]).getValue)

            # Its own recalculation alone: what an edit left to be worked out, at once.
            document.enableAutomaticCalculation(False)
            times = []
            for i in range(WARM_UP + rounds):
                source.setValue(entry())
                began = time.perf_counter()
                document.calculate()
                if i >= WARM_UP:
                    times.append((time.perf_counter() - began) * 1000)
            figures["recalculation"] = statistics.median(times)
            document.enableAutomaticCalculation(True)

            def insert():
                sheet.Rows.insertByIndex(job["insert"], 1)
                sheet.getCellByPosition(last_column, last_row + 1).getValue()

            def remove():
                sheet.Rows.removeByIndex(job["insert"], 1)
                last.getValue()

            figures["insert"] = timed(insert, remove)
            source.setValue(80)
            figures["values"] = [cell(at).getValue() for at in job["results"]]

            def again():
                other = opened(desktop, job["sheet"])
                there = other.Sheets.getByIndex(0)
                there.getCellRangeByPosition(0, 0, last_column, last_row).getDataArray()
                opens.append(other)

            opens = []
            figures["open"] = timed(again, lambda: opens.pop().close(True))
            document.close(True)
            print(json.dumps(figures))
        finally:
            try:
                desktop.terminate()
                office.wait(START_SECONDS)
            except Exception:
                office.kill()


main()
