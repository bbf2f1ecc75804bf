"""JSON Schemas (2020-12) of the content files, for editors to complete keys and words from."""

from typing import Any

from sitegen.reading.files import SHAPES
from sitegen.reading.schemas.series import PAGE_HEAD
from sitegen.reading.schemas.shape import Shape
from sitegen.vocabulary import MUSCLE_REGIONS

_DIALECT = "https://json-schema.org/draft/2020-12/schema"


def schemas() -> dict[str, dict[str, Any]]:
    """Schemas by file name: ``series.schema.json`` and one for each kind of file in a folder."""
    shapes = {kind.removesuffix("s") if kind != "series" else kind: shape for kind, shape in SHAPES.items()}
    shapes["page"] = PAGE_HEAD
    found = {}
    for name, shape in shapes.items():
        found[f"{name}.schema.json"] = schema_of(shape)
    _suggest_muscles(found["exercise.schema.json"])
    return found


def schema_of(shape: Shape) -> dict[str, Any]:
    """The schema of a kind of file."""
    return {"$schema": _DIALECT, "title": shape.says} | shape.schema()


def _suggest_muscles(schema: dict[str, Any]) -> None:
    """Offer the known muscles without forbidding those that a series adds."""
    for role in schema["properties"]["muscles"]["properties"].values():
        for choice in role["anyOf"]:
            choice.get("items", choice)["examples"] = list(MUSCLE_REGIONS)
