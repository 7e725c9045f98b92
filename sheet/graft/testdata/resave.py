"""Reads result tabs back with openpyxl and saves each workbook: resave.py FROM INTO.

Prints one JSON line a workbook.
"""

import json
import pathlib
import sys
import warnings

import openpyxl

warnings.simplefilter("ignore")


def fill_of(cell):
    return cell.fill.fgColor.rgb if cell.fill.fill_type == "solid" else ""


def read(path, into):
    book = openpyxl.load_workbook(path, keep_vba=path.suffix == ".xlsm")
    said = {"tabs": book.sheetnames}
    if "dryfit" in book.sheetnames:
        tab = book["dryfit"]
        said.update(
            text=tab["A1"].value,
            number=tab["B12"].value,
            format=tab["B12"].number_format,
            formula=tab["C12"].value,
            fill=fill_of(tab["A1"]),
            bold=bool(tab["A1"].font.b),
            note=tab["B2"].comment.text if tab["B2"].comment else "",
            link=tab["A3"].hyperlink.target if tab["A3"].hyperlink else "",
            frozen=tab.freeze_panes or "",
            pictures=len(tab._images),
            rules=sum(len(r.rules) for r in tab.conditional_formatting),
            titles=tab.print_title_rows or "",
            rich=book["dryfit rows"]["A2"].value,
        )
    book.save(into / path.name)
    return said


def main():
    came, into = map(pathlib.Path, sys.argv[1:])
    for path in sorted(came.iterdir()):
        try:
            said = read(path, into)
        except Exception as e:  # whatever it is, the test wants to see it
            said = {"error": f"{type(e).__name__}: {e}"}
        said["file"] = path.name
        print(json.dumps(said))


main()
