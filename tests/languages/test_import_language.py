"""A text that is made at import has no language: what is imported in French is English after it."""

import subprocess
import sys

_IMPORT = """
import pkgutil, traceback
import builder, builder.language as language

asked = set()

def recorded(function):
    def ask(text, *rest, **values):
        stack = [each for each in traceback.extract_stack() if "/builder/" in each.filename]
        place = [each for each in stack if each.name == "<module>"][-1]
        asked.add(f"{place.filename.rpartition('/builder/')[2]}:{place.lineno} {text}")
        return function(text, *rest, **values)
    return ask

language.tr, language.ntr = recorded(language.tr), recorded(language.ntr)
for module in pkgutil.walk_packages(builder.__path__, "builder."):
    if not module.name.endswith("__main__"):
        __import__(module.name)
print(*map(repr, sorted(asked)), sep="\\n", end="\\n" * bool(asked))
"""


def test_no_module_translates_while_it_is_imported() -> None:
    done = subprocess.run(
        [sys.executable, "-c", _IMPORT], capture_output=True, text=True, check=True
    )
    assert done.stdout.splitlines() == []
