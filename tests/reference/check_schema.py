# SPDX-License-Identifier: MIT
"""Every example is valid by the schema that the program prints, and common slips are not.

Usage: check_schema.py PROGRAM EXAMPLES_FOLDER
"""
import copy
import json
import pathlib
import subprocess
import sys
import tomllib

import jsonschema

program, examples = sys.argv[1], pathlib.Path(sys.argv[2])
schema = json.loads(subprocess.run([program, "schema"], check=True, capture_output=True, text=True).stdout)
jsonschema.Draft202012Validator.check_schema(schema)
validator = jsonschema.Draft202012Validator(schema)

files = sorted(examples.glob("*.toml"))
assert len(files) >= 5, f"only {len(files)} examples in {examples}"
for file in files:
    layout = tomllib.loads(file.read_text(encoding="utf-8"))
    errors = [f"{'/'.join(map(str, e.absolute_path))}: {e.message}" for e in validator.iter_errors(layout)]
    assert not errors, f"{file.name}: {errors}"

good = tomllib.loads((examples / "equal_hoses.toml").read_text(encoding="utf-8"))
slips = {
    "unknown table": lambda t: t.update(toolbars={}),
    "unknown key": lambda t: t["hose"].update(lenght="22 ft"),
    "number without a unit": lambda t: t["hose"].update(length=22),
    "count as text": lambda t: t["toolbar"].update(rows="16"),
    "word that is none of the choices": lambda t: t.update(units="imperial"),
    "one table where several are": lambda t: t.update(manifold={"bore": "1 in"}),
}
for name, slip in slips.items():
    layout = copy.deepcopy(good)
    slip(layout)
    assert not validator.is_valid(layout), f"the schema accepts a layout with this slip: {name}"
print(f"{len(files)} examples valid, {len(slips)} slips refused")
