"""Coverage-guided fuzz of what reads files.

``python -m tests.fuzz.guided scenario CORPUS -max_total_time=600``: what is found new is kept in
the folder CORPUS, so that the next run goes on from there; a crash is written to a file beside it.
"""

import sys
from pathlib import Path

import atheris

with atheris.instrument_imports(include=["optimizer", "ruamel.yaml"]):
    from tests.fuzz.readers import TARGETS, seeds


def main(target: str, corpus: str, *options: str) -> None:
    """Fuzz one target until its time is over."""
    folder = Path(corpus)
    folder.mkdir(parents=True, exist_ok=True)
    for number, seed in enumerate(seeds(target)):
        (folder / f"seed_{number}").write_bytes(seed)
        TARGETS[target](seed)  # what is loaded late is loaded now
    words = [f"-artifact_prefix={folder.parent}/{target}-", "-rss_limit_mb=4096", "-max_len=8192"]
    atheris.Setup([sys.argv[0], *words, *options, str(folder)], TARGETS[target])
    atheris.Fuzz()


if __name__ == "__main__":
    main(*sys.argv[1:])
