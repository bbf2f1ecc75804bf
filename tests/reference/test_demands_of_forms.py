"""The demo's demand lists against those that a professional gives the same forms.

The table in ``data/demands.yaml`` was written from the movements and the sentences of the vocabulary, each
row with its reason and, where something published decides it, the source. A wrong list gives somebody the
wrong form.
"""

from pathlib import Path
from typing import Any

import pytest
import yaml

from sitegen.model import Series
from sitegen.study.forms import Form, FormKey, forms_of
from sitegen.vocabulary import DEMANDS

ROWS: list[dict[str, Any]] = yaml.load(
    (Path(__file__).parent / "data" / "demands.yaml").read_text(),
    Loader=getattr(yaml, "CSafeLoader", yaml.SafeLoader),
)


def named(row: dict[str, Any]) -> str:
    return str(row["form"])


@pytest.fixture(scope="module")
def forms(demo_series: Series) -> dict[str, Form]:
    """Forms by name, as the table writes them."""
    library = forms_of(demo_series.exercises)
    return {_name(key): library[key] for key in library}


def _name(key: FormKey) -> str:
    return f"{key.exercise}/{key.variant}" if key.variant else key.exercise


@pytest.mark.parametrize("row", ROWS, ids=named)
def test_a_form_declares_what_a_professional_sees(row: dict[str, Any], forms: dict[str, Form]) -> None:
    """The words that the series declares itself are left to the tests of its own promises."""
    declared = set(DEMANDS).intersection(forms[named(row)].demands)
    assert declared == set(row["demands"]), row["why"]


def test_the_table_speaks_of_every_demand_and_of_each_form_once() -> None:
    assert {demand for row in ROWS for demand in row["demands"]} == set(DEMANDS)
    assert len({named(row) for row in ROWS}) == len(ROWS) >= 60
    assert all(row["why"] for row in ROWS)
