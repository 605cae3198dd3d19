"""Mutated command lines, by a seed: each is run in process, and what must not happen is told.

Run by `test_mutated_commands.py` as a script. A line is written down before it is run, so that one that ends the
process or never ends is known too.
"""

import contextlib
import io
import json
import os
import random
import re
import shlex
import shutil
import signal
import sys
import traceback
from pathlib import Path

import click

from halfnut import cli
from halfnut.cli import failures

LONGEST_S = 20
"""Of processor time."""
STATUSES = {0, 1, 2, 3}
NOT_A_NUMBER = re.compile(r"(?<![\w./'\"-])[-+]?(?:nan|inf(?:inity)?)(?![\w'\"])", re.IGNORECASE)

LENGTHS = ("1.25in", "32 mm", "#7", '1-1/4"', "20mm", "0.04in", "3/8 in", "6mm", "2in", "0.5mm", "100mm")
ALLOYS = ("6061-T6", "7075", "C36000", "304", "titanium grade 2", "brass", "1018", "PA6", "5083", "4130 normalised")
THREADS = ("M10-6g", "M10x1.5-6H", "7/8-14 UNF-2A", "Tr16x4-7e", "1/4-18 NPT", "G1/4", "1-5 Acme-2G", "M6", "R1/2")
MACHINES = ("gap-bed", "metric-lathe", "bench-mill")
OTHERS = (
    "25 H7/g6", "1.25 RC4", "96 DP", "RGE 0.8", "morse 3", "20tpi", "HSS", "carbide", "3", "0.15", "60", "straight",
    "anodise II black 15 um", "0.0002 in", "40C", "20,24,30,127", "8 TPI", "1.5 mm", "0.1 mm/rev", "chuck", "5-30 um",
)  # fmt: skip
HOSTILE = (
    "", " ", "0", "-1", "-1mm", "0in", "1e308mm", "1e-320mm", "1e12in", "-1e300", "nan", "inf", "-inf", "nanmm",
    "1e400mm", "99999999999999999999", "²", "½ in", "1/0 in", "0/0mm", "1mm mm", "=1+1", "%s%n", "{0}", "../..", "/",
    "/dev/null", ".", "nothing.toml", "folder", "jobs.csv", "latin.csv", "binary.toml", "job.toml", "deep.toml", "*",
    "a\0b", "a\nb", "\x1b[2J", "\t", "\ufeff1mm", "٣mm", "１mm", "\udcff", "M10\udcff-6g", "é" * 300,
    "x" * 5000, "M" + "9" * 400, "infin",
    "M10x0-6g", "M0x1-6H", "M10-6g-6H", "1e5-20 UNC-2A", "Tr1e9x4", "M10x1.5-0h", "5e-324", "1e-308in", "1e9mm",
    "1e15 mm", "1,5mm", "-", "--", "--json", "--help", "-h", "--replace", "1000000", "0.0000001", "2147483648",
    "NaN C", "1e308C",
)  # fmt: skip
NUMBERS = (
    "0", "-1", "1e-300", "1e-12", "1e-6", "0.001", "0.01", "0.1", "1", "3", "20", "100", "1e3", "1e6", "1e12", "1e100",
    "1e300", "nan", "inf", "0.333333333333333333333", "00001", "1e-320",
)  # fmt: skip
MORE = (
    "batch turn jobs.csv --machine gap-bed --out answers.csv --replace",
    "batch drill jobs.csv --out answers.csv --replace",
    "batch limits threads.csv --out answers.csv --replace",
    "batch fit threads.csv --out -",
    "batch wires threads.csv --out answers.csv --replace",
    "batch knurl-blank knobs.csv --pitch 1mm --out answers.csv --replace",
    "plan job.toml --out out --replace",
    "plan job.toml --json",
    "plan job.toml --out out --json",
    "machine show gap-bed",
    "machine check our.toml",
    "machine list --json",
    "turn 6061-T6 1.25in --machine our.toml --json",
    "mill 7075 10mm --shape pocket --width 30mm --depth 8mm --machine bench-mill",
    "speed-chart --machine bench-mill --alloy 5083",
    "gear-train M24x1.5-6g --machine gap-bed --out a.svg --replace",
)
FILES = (
    "a.svg",
    "a.html",
    "out",
    "answers.csv",
    "a.parquet",
    "mine.txt",
    "folder",
    "no/where.svg",
    "-",
    "link",
    "a.xyz",
)


def room(folder):
    """Files and folders that lines name."""
    folder.mkdir()
    (folder / "folder").mkdir()
    (folder / "jobs.csv").write_text(
        "alloy,diameter_mm,depth_mm\n6061-T6,20,1\n1018,-3,1e308\nbrass,nan,inf\n", "utf-8"
    )
    (folder / "threads.csv").write_text("thread,external,internal\nM10-6g,M10-6g,M10-6H\n?,?,?\n", "utf-8")
    (folder / "knobs.csv").write_text("diameter_mm\n20\n1e308\n", "utf-8")
    (folder / "latin.csv").write_bytes("alloy\nlégère\n".encode("latin-1"))
    (folder / "binary.toml").write_bytes(bytes(range(256)))
    (folder / "deep.toml").write_text("a = " + "[" * 3000 + "]" * 3000, "utf-8")
    (folder / "mine.txt").write_text("mine", "utf-8")
    (folder / "link").symlink_to("mine.txt")
    (folder / "job.toml").write_text(
        'title = "t"\nmachine = "gap-bed"\n[[parts]]\nname = "index"\nquantity = 1\nalloy = "6061-T6"\n'
        'length = "2 in"\n'
        'stock = { form = "bar", diameter = "1 in" }\noperations = [{ do = "turn", to = "0.9 in", length = "1 in" }]\n',
        "utf-8",
    )
    for name in MACHINES[:1]:
        shutil.copy(Path(cli.__file__).parents[1] / "demo" / "machines" / f"{name}.toml", folder / "our.toml")


def leaves(command, words=()):
    """Every command that answers, with the words that call it."""
    if isinstance(command, click.Group):
        context = click.Context(command)
        for name in command.list_commands(context):
            yield from leaves(command.get_command(context, name), (*words, name))
    else:
        yield words, command


def value(draw, parameter):
    """A value for an argument or an option: mostly of its kind, else anything."""
    if draw.random() < 0.12:
        return draw.choice(HOSTILE)
    kind = parameter.type
    if isinstance(kind, click.Choice):
        return draw.choice([str(each) for each in kind.choices])
    if isinstance(kind, click.Path):
        return draw.choice(("job.toml", "jobs.csv", "threads.csv", "knobs.csv", *FILES))
    name = (parameter.name or "").lower()
    if isinstance(kind, (click.types.FloatParamType, click.types.IntParamType)):
        return draw.choice(("1", "2", "0.5", "3", "15", "60", "0", "-1", "1e9", "1e-9"))
    for part, known in (
        ("alloy", ALLOYS), ("machine", (*MACHINES, "our.toml")), ("thread", THREADS), ("external", THREADS),
        ("internal", THREADS), ("designation", (*THREADS, "25 H7/g6")), ("name", (*MACHINES, *ALLOYS, "morse 3")),
        ("lead", ("1.5 mm", "8 TPI", "M24x1.5-6g")), ("pitch", ("96 DP", "RGE 0.8", "1 mm", "20tpi")),
    ):  # fmt: skip
        if part in name:
            return draw.choice(known)
    return draw.choice(LENGTHS) if draw.random() < 0.75 else draw.choice((*OTHERS, *THREADS, *ALLOYS))


def examples(words, command):
    """The lines that a command's help shows, a few more for those that read files."""
    shown = re.sub(r"\n {4,}", " ", command.epilog or "").splitlines()
    out = []
    for text in (*shown, *(f"halfnut {each}" for each in MORE)):
        with contextlib.suppress(ValueError):  # a sentence that is no command
            out.append(shlex.split(text))
    return [each[1:] for each in out if each[: len(words) + 1] == ["halfnut", *words]]


def made(draw, words, command):
    """A line of what a command needs and some of what it may take."""
    out = list(words)
    for parameter in command.params:
        if isinstance(parameter, click.Argument):
            if parameter.required or draw.random() < 0.7:
                out.append(value(draw, parameter))
        elif parameter.required or draw.random() < 0.05:
            out += option(draw, parameter)
    return out


def option(draw, parameter):
    values = [] if parameter.is_flag else [value(draw, parameter) for _ in range(parameter.nargs)]
    return [parameter.opts[0], *values]


def line(draw, commands):
    """A command line: an example of its help, or one that was made, then mutated."""
    words, command = draw.choice(commands)
    known = examples(words, command)
    out = list(draw.choice(known)) if known and draw.random() < 0.75 else made(draw, words, command)
    for _ in range(draw.choice((0, 1, 1, 1, 2))):
        place = draw.randrange(len(words), len(out) + 1)
        change = draw.random()
        options = [each for each in command.params if isinstance(each, click.Option)]
        if change < 0.3 and options:
            out += option(draw, draw.choice(options))
        elif place == len(out) or change < 0.4:
            out.insert(place, draw.choice((*HOSTILE, *LENGTHS, "--json", "--evidence")))
        elif change < 0.7 and re.search(r"\d", out[place]):
            out[place] = re.sub(r"\d+(\.\d+)?", draw.choice(NUMBERS), out[place], count=1)
        elif change < 0.85:
            out[place] = draw.choice(HOSTILE)
        elif change < 0.9:
            del out[place]
        else:
            text = out[place]
            at = draw.randrange(len(text) + 1)
            out[place] = text[:at] + draw.choice("0.-e/x\0 \udcff²") + text[at + draw.randrange(2) :]
    return out


class Late(BaseException):
    """A line that does not end."""


def late(*_):
    raise Late


def run(arguments):
    """How a line ends: its status, and what is wrong with that, an empty text where nothing is."""
    out, told = io.TextIOWrapper(io.BytesIO(), "utf-8"), io.TextIOWrapper(io.BytesIO(), "utf-8", "backslashreplace")
    foreseen = []
    tell = failures.tell

    def watched(error, **how):
        foreseen.append(error)
        return tell(error, **how)

    failures.tell = watched
    signal.setitimer(signal.ITIMER_PROF, LONGEST_S)
    status = None
    try:
        with contextlib.redirect_stdout(out), contextlib.redirect_stderr(told):
            cli.main(arguments)
    except SystemExit as end:
        status = end.code
    except Late:
        return None, f"longer than {LONGEST_S} s of processor time"
    except BaseException:
        return None, "a traceback: " + traceback.format_exc()
    finally:
        signal.setitimer(signal.ITIMER_PROF, 0)
        failures.tell = tell
    printed, words = (stream.buffer.getvalue().decode("utf-8", "replace") for stream in (out, told))
    if status not in STATUSES:
        return status, f"status {status}"
    if "Traceback" in words:
        return status, f"a traceback: {words}"
    if status == 3 and "unforeseen" in words:
        where = traceback.extract_tb(foreseen[0].__traceback__)[-1]
        return status, f"unforeseen: {words.strip()[:300]} at {Path(where.filename).name}:{where.lineno}"
    if status in (2, 3) and not words.strip():
        return status, f"status {status} and no word"
    paths = {"--out", "--page", "--begin"} & set(arguments)
    if status == 0 and not paths and arguments[:2] != ["machine", "new"] and NOT_A_NUMBER.search(printed):
        return status, f"status 0 and {NOT_A_NUMBER.search(printed)[0]}"
    named = arguments[max(0, arguments.index("--json") - 1)].startswith("-") if "--json" in arguments else True
    if not named and not {"-h", "--help", "-"} & set(arguments) and arguments[:1] != ["batch"]:
        try:
            json.loads(printed if status in (0, 1) else words[words.index("{") :])
        except ValueError:
            return status, f"status {status} and no JSON: {(printed or words)[:200]}"
    return status, ""


def main():
    folder, seed, count, log = sys.argv[1], int(sys.argv[2]), int(sys.argv[3]), Path(sys.argv[4])
    Path(folder).mkdir(exist_ok=True)
    os.chdir(folder)
    signal.signal(signal.SIGPROF, late)
    # one that serves until it is stopped has its own tests
    commands = sorted((leaf for leaf in leaves(cli.command) if leaf[0] != ("serve",)), key=lambda leaf: leaf[0])
    draw = random.Random(seed)
    with log.open("a", encoding="utf-8") as lines:
        for place in range(count):
            if place % 200 == 0:
                os.chdir(folder)
                shutil.rmtree("room", ignore_errors=True)
                room(Path("room"))
                os.chdir("room")
            arguments = line(draw, commands)
            lines.write(json.dumps({"line": arguments}) + "\n")
            lines.flush()
            status, wrong = run(arguments)
            lines.write(json.dumps({"status": status, "wrong": wrong}) + "\n")


if __name__ == "__main__":
    main()
