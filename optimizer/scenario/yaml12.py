"""The reader and writer of YAML 1.2 that keeps comments, order and quotes."""

from contextlib import suppress
from typing import Any

from ruamel.yaml import YAML
from ruamel.yaml.constructor import RoundTripConstructor

LONGEST_NUMBER = 300  # characters; 0b and 0x have no limit of their own


class _Constructor(RoundTripConstructor):
    """Collects every repeated key instead of stopping at the first."""

    def __init__(self, *given: Any, **options: Any) -> None:
        super().__init__(*given, **options)
        self.repeated: list[tuple[int, str]] = []

    def check_mapping_key(
        self, node: Any, key_node: Any, mapping: Any, key: Any, value: Any
    ) -> bool:
        """Keep the first of two equal keys, and note the second."""
        if key in mapping:
            self.repeated.append((key_node.start_mark.line + 1, str(key)))
            return False
        return True

    def construct_yaml_int(self, node: Any) -> Any:
        """Leave a number too long to be one as text, to be refused where it stands."""
        with suppress(ValueError):
            if len(node.value) <= LONGEST_NUMBER:
                return super().construct_yaml_int(node)
        return str(node.value)

    def construct_yaml_timestamp(self, node: Any, values: Any = None) -> Any:
        """Leave a date that is none as text, to be refused where it stands."""
        with suppress(ValueError):
            return super().construct_yaml_timestamp(node, values)
        return str(node.value)


for _kind in ("int", "timestamp"):
    _Constructor.add_constructor(
        f"tag:yaml.org,2002:{_kind}", getattr(_Constructor, f"construct_yaml_{_kind}")
    )


class _Yaml(YAML):
    def official_plug_ins(self) -> list[str]:
        """Look for none: it looks through a folder each time, and there are none."""
        return []


def round_trip() -> YAML:
    """Make a reader and writer that keeps comments, order and quotes."""
    yaml = _Yaml(typ="rt", pure=True)
    yaml.Constructor = _Constructor
    yaml.preserve_quotes = True
    yaml.width = 100
    return yaml
