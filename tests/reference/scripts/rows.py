"""Writes the rows of a reference table as CSV; shared by the scripts beside it."""

import csv
import sys

HEAD = "question,given,output,expected,tolerance,tolerance_kind,basis,source,locator".split(",")


class Rows:
    """Collects rows and prints them."""

    def __init__(self):
        self.rows = []

    def add(self, question, given, output, expected, tolerance, kind, basis, source, locator):
        text = "; ".join(f"{name}={amount}" for name, amount in given.items())
        value = f"{expected:.12g}"
        self.rows.append(
            [question, text, output, value, f"{tolerance:g}", kind, basis, source, locator]
        )

    def print(self):
        writer = csv.writer(sys.stdout, lineterminator="\n")
        writer.writerow(HEAD)
        writer.writerows(self.rows)
