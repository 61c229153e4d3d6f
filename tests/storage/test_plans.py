"""However many people there are, a query looks at the rows it gives and few more: SQLite finds them by an index."""

from __future__ import annotations

import importlib
from collections.abc import Iterator

import pytest
from sqlalchemy import Select
from sqlalchemy.dialects import sqlite

from storage.database import Database
from storage.plain import _STATEMENTS
from tests.databases import IN_A_FILE

MODULES = """
categories commitments entries forms goals handled journal outbox people rounds stints taps targets tasks told_weather
""".split()
# These indexes hold only what still needs something.
HOLD_FEW = ("INDEX ix_parcels_owed", "INDEX ix_parcels_put_off", "INDEX ix_rounds_waiting")
# The zones are looked through once a minute, beside the loop.
READS_EVERYONE = {"people._ALL", "people._ZONES_WITH_HOLIDAYS"}


def queries() -> Iterator[tuple[str, Select[*tuple[object, ...]]]]:
    """Every query that the storage keeps ready, by module and name."""
    for module in MODULES:
        for name, value in vars(importlib.import_module(f"storage.{module}")).items():
            if isinstance(value, Select) and f"{module}.{name}" not in READS_EVERYONE:
                yield f"{module}.{name}", value
    for name, form in vars(importlib.import_module("storage.forms")).items():
        if name.isupper() and hasattr(form, "every"):
            yield f"forms.{name}.every", form.every
            yield f"forms.{name}.one", form.one
    for table, statements in _STATEMENTS.items():
        yield f"plain.{table}", statements.read


@IN_A_FILE
@pytest.mark.parametrize(("name", "query"), [pytest.param(name, query, id=name) for name, query in queries()])
def test_no_query_scans_a_table(database: Database, name: str, query: Select[*tuple[object, ...]]) -> None:
    compiled = query.compile(dialect=sqlite.dialect())
    with database._connections.defining() as connection:
        plan = connection.exec_driver_sql(f"EXPLAIN QUERY PLAN {compiled}", tuple(None for _ in compiled.positiontup or ())).all()
    steps = [row.detail for row in plan]
    assert steps
    assert [step for step in steps if step.startswith("SCAN") and not any(small in step for small in HOLD_FEW)] == []
