"""How much of a file is read at most, so that no file however made can fill the machine."""

MOST_BYTES = 60_000_000  #: of a file, and of a workbook once it is unpacked
MOST_ROWS = 1_000_000
MOST_COLUMNS = 500
LONGEST_LINE = 100_000  #: letters
MOST_CELLS = 20_000_000  #: fields of a table, empty ones counted
MOST_MEMBERS = 2_000  #: files within a workbook
