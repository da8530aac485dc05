# SPDX-License-Identifier: MIT
"""The package itself: version, stubs, README, notebook."""

from __future__ import annotations

import contextlib
import importlib.metadata
import importlib.util
import inspect
import io
import pathlib
import pydoc
import re

import nbformat
from conftest import EXAMPLES, ROOT
from nbclient import NotebookClient

import libflow as lf

BINDINGS = ROOT / "bindings"


def test_the_version_has_one_home():
    home = re.search(r'"(\d+\.\d+\.\d+)"', (ROOT / "libflow" / "version.hpp").read_text()).group(1)
    assert lf.__version__ == home
    assert importlib.metadata.version("libflow") == home


def test_the_installed_package_is_typed_and_not_the_source():
    folder = pathlib.Path(lf.__file__).parent
    assert BINDINGS not in folder.parents
    assert (folder / "py.typed").exists()
    assert (folder / "_libflow" / "__init__.pyi").exists()
    assert (folder / "_libflow" / "physics.pyi").exists()
    assert "plot" not in lf.__all__


def test_help_begins_with_the_arguments():
    for module in (lf, lf.physics):
        for name in module.__all__:
            thing = getattr(module, name)
            if callable(thing) and not isinstance(thing, type):
                first = pydoc.plain(pydoc.render_doc(thing)).splitlines()[2]
                assert first.startswith(f"{name}(") and "PyCapsule" not in first and "(...)" not in first, first
    first = pydoc.plain(pydoc.render_doc(lf.to_unit)).splitlines()[2]
    assert first == "to_unit(value: ArrayLike, unit: str, kind)"
    assert list(inspect.signature(lf.solve).parameters) == ["network", "liquid", "tees"]


def test_what_all_names_is_there():
    assert set(lf.__all__) <= set(dir(lf))


def test_the_stubs_are_current(tmp_path):
    spec = importlib.util.spec_from_file_location("make_stubs", BINDINGS / "make_stubs.py")
    make_stubs = importlib.util.module_from_spec(spec)
    spec.loader.exec_module(make_stubs)
    make_stubs.write(tmp_path)
    for fresh in sorted(tmp_path.glob("*.pyi")):
        committed = BINDINGS / "libflow" / "_libflow" / fresh.name
        assert committed.read_text() == fresh.read_text(), f"run bindings/make_stubs.py: {fresh.name} is old"
    stub = (tmp_path / "__init__.pyi").read_text()
    assert "class Hose" in stub
    assert "length: float | str" in stub
    compile(stub, "stub", "exec")


def test_the_session_of_the_readme(monkeypatch):
    text = (BINDINGS / "README.md").read_text()
    code, shown = re.search(r"```python\n(.*?)```.*?```text\n(.*?)```", text, re.DOTALL).groups()
    monkeypatch.chdir(ROOT)
    printed = io.StringIO()
    with contextlib.redirect_stdout(printed):
        exec(compile(code, "README.md", "exec"), {})
    assert printed.getvalue() == shown


def test_the_catch_test_of_the_readme(monkeypatch, tmp_path):
    text = (BINDINGS / "README.md").read_text()
    code = re.search(r"## A catch test.*?```python\n(.*?)```", text, re.DOTALL).group(1)
    (tmp_path / "examples").symlink_to(EXAMPLES)
    monkeypatch.chdir(tmp_path)
    printed = io.StringIO()
    with contextlib.redirect_stdout(printed):
        exec(compile("import libflow as lf\n" + code, "README.md", "exec"), {})
    assert printed.getvalue().startswith("NOT EVEN: rows 5, 12")
    assert lf.read_layout("north_bar_built.toml").name.endswith("as built")
    assert "Catch test" in pathlib.Path("north_bar.html").read_text()


def test_the_notebook_runs_top_to_bottom(tmp_path):
    notebook = nbformat.read(EXAMPLES / "from_one_hose_to_a_bar.ipynb", as_version=4)
    nbformat.validate(notebook)
    client = NotebookClient(notebook, timeout=120, kernel_name="python3", resources={"metadata": {"path": str(EXAMPLES)}})
    client.execute()
    outputs = [out for cell in notebook.cells if cell.cell_type == "code" for out in cell.outputs]
    assert not [out for out in outputs if out.output_type == "error"]
    assert sum("image/png" in out.get("data", {}) for out in outputs) >= 6
    assert sum("text/html" in out.get("data", {}) for out in outputs) >= 1
    shown = [out["data"]["text/html"] for out in outputs if "text/html" in out.get("data", {})]
    assert any(text.startswith("<iframe") for text in shown)
