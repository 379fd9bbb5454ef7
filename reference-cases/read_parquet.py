"""Reads a study's rows as Parquet with a general tool (Apache Arrow's reader for Python) and holds them to the table beside them.

python3 read_parquet.py ROWS.csv ROWS.parquet        ends with 0 if both say the same, else says where they differ
"""
import csv
import math
import sys

import pyarrow as arrow
import pyarrow.parquet as parquet


def main(table_name: str, columns_name: str) -> None:
    with open(table_name, newline="", encoding="utf-8") as file:
        heads, *rows = list(csv.reader(file))
    columns = parquet.read_table(columns_name)
    assert columns.column_names == heads, (columns.column_names, heads)
    assert columns.num_rows == len(rows), (columns.num_rows, len(rows))
    types = {}
    for place, head in enumerate(heads):
        column = columns.column(place)
        types[head] = str(column.type)
        for number, (found, row) in enumerate(zip(column.to_pylist(), rows)):
            text = row[place]
            if arrow.types.is_floating(column.type):
                # to the last bit: both are the shortest text that reads back the same
                same = found is None if text == "" else found == float(text) and not math.isnan(found)
            elif arrow.types.is_integer(column.type):
                same = found == int(text)
            else:
                # a spreadsheet's guard before a formula is no part of the word
                guard = text[1:] if text[:2] in ("'=", "'+", "'-", "'@") else text
                same = (found or "") == guard
            assert same, f"row {number}, {head}: {found!r} for {text!r}"
    said = parquet.ParquetFile(columns_name).metadata.metadata
    assert {b"study", b"fingerprint", b"build"} <= set(said), said
    print(f"pyarrow {arrow.__version__}: {columns.num_rows} rows of {len(heads)} columns are those of the table: {types}")


if __name__ == "__main__":
    main(*sys.argv[1:])
