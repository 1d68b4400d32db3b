"""Rows as Parquet: a small file for each batch while it goes on, one table at the end."""

from collections.abc import Iterator
from pathlib import Path

import pyarrow as pa
import pyarrow.parquet as pq

from optimizer.studies.sweep.columns import in_columns
from optimizer.studies.sweep.outcome import Row
from optimizer.studies.sweep.stream import Rows, Stream

TYPES = {"whole": pa.int64(), "number": pa.float64(), "text": pa.string()}
GROUP = 5000  # rows of a group


class ParquetStream(Stream):
    """A Parquet file."""

    @property
    def _schema(self) -> pa.Schema:
        return pa.schema([(column.name, TYPES[column.kind]) for column in self.columns])

    def kept(self) -> Rows:
        """Return the rows of all small files; each is whole, since it is renamed when it is."""
        return [row for file in sorted(self.part.glob("*.parquet")) for row in self._rows(file)]

    def add(self, rows: Rows) -> None:
        """Write one more small file."""
        self.part.mkdir(exist_ok=True)
        name = f"{min(int(row['point'] or 0) for row in rows):06d}"
        unfinished = self.part / f"{name}.unfinished"
        self.write(rows, unfinished)
        unfinished.replace(self.part / f"{name}.parquet")

    def read(self) -> Rows:
        """Return the rows of the finished table; none if it is no table of a sweep."""
        return list(self._rows(self.path))

    def write(self, rows: Rows, target: Path) -> None:
        """Write a whole table."""
        cells = [in_columns(row, self.columns) for row in rows]
        names = [column.name for column in self.columns]
        plain = [dict(zip(names, row, strict=True)) for row in cells]
        table = pa.Table.from_pylist(plain, schema=self._schema)
        pq.write_table(table, target, row_group_size=GROUP)

    def _rows(self, file: Path) -> Iterator[Row]:
        try:
            table = pq.read_table(file)
        except pa.ArrowInvalid:
            yield {"sweep": None}
            return
        if table.schema.names != self._schema.names:
            yield {"sweep": None}
            return
        yield from table.to_pylist()
