# Holds a workbook against the same table as CSV, cell for cell. Exit 77: openpyxl is not installed.
import csv
import sys

try:
    import openpyxl
except ImportError as missing:
    print(missing)
    sys.exit(77)
sheet = [list(row) for row in openpyxl.load_workbook(sys.argv[1]).worksheets[0].iter_rows(values_only=True)]
with open(sys.argv[2], newline="", encoding="utf-8") as file:
    table = list(csv.reader(file))


def alike(cell, text):
    if cell is None:
        return text == ""
    if isinstance(cell, (int, float)) and not isinstance(cell, bool):
        return float(text) == cell
    return text in (cell, "'" + cell)


for number, (cells, texts) in enumerate(zip(sheet, table, strict=True)):
    if len(cells) != len(texts) or not all(map(alike, cells, texts)):
        sys.exit(f"row {number}: {cells} and {texts}")
print(f"{len(table) - 1} rows alike")
