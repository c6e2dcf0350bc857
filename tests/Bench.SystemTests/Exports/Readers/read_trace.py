# Sums over a trace, as pandas reads it. Exit 77: what is needed is not installed.
import sys

try:
    import pandas
    file = sys.argv[1]
    trace = pandas.read_csv(file) if file.endswith(".csv") else pandas.read_parquet(file)
except ImportError as missing:
    print(missing)
    sys.exit(77)
count, current = trace["count"].dropna(), trace["current_a"].dropna()
for value in (len(trace), trace["time_s"].sum(), len(count), count.sum(), len(current), current.sum()):
    print(f"{float(value):.6f}")
