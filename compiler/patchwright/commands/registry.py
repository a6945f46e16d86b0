"""Every command of the program, in the order of the help."""

from __future__ import annotations

import click

from patchwright.commands.build import build
from patchwright.commands.check import check
from patchwright.commands.compare import compare
from patchwright.commands.cut import cut
from patchwright.commands.explain import explain
from patchwright.commands.new import new
from patchwright.commands.plan import plan
from patchwright.commands.proof import proof
from patchwright.commands.rules import rules
from patchwright.commands.schema import schema
from patchwright.commands.watch import watch

COMMANDS: tuple[click.Command, ...] = (build, check, compare, cut, explain, new, plan, proof, rules, schema, watch)
