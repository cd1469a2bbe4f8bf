"""Answers questions by reading the whole table with LIKE. Arguments: the studio's database; then SQL conditions. Prints the median seconds of each, and how many rows it found."""
import sqlite3
import statistics
import sys
import time

db = sqlite3.connect(f"file:{sys.argv[1]}?mode=ro", uri=True)
for condition in sys.argv[2:]:
    query = f'SELECT * FROM "SearchEntries" NOT INDEXED WHERE {condition} ORDER BY "On" DESC LIMIT 50'
    seconds = []
    for _ in range(5):
        start = time.perf_counter()
        db.execute(query).fetchall()
        count = db.execute(f'SELECT count(*) FROM "SearchEntries" NOT INDEXED WHERE {condition}').fetchone()[0]
        seconds.append(time.perf_counter() - start)
    print(statistics.median(seconds), count)
