"""`schema`: how editors complete and check patterns while typing."""

from __future__ import annotations

from pathlib import Path

import click

from patchwright.commands.options import Exampled


@click.command(cls=Exampled)
@click.option("--house", is_flag=True, help="The schema of house.yaml instead of patterns.")
@click.option("--out", type=click.Path(path_type=Path), default=None, help="Write to a file instead of printing.")
def schema(house: bool, out: Path | None) -> None:
    """Print the JSON Schema by which editors complete and check patterns while typing.

    \b
    Examples:
    patchwright schema --out pattern.schema.json
    patchwright schema --house --out house.schema.json
    """
    from patchwright.dialect.schema import house_json_schema, json_schema, schema_text
    from patchwright.files import replace_file

    text = schema_text(house_json_schema() if house else json_schema())
    if out is None:
        click.echo(text, nl=False)
        return
    replace_file(out, text.encode("utf-8"))
