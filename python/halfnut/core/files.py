"""Files that are whole or not there: the one way by which what Halfnut makes reaches the disk.

A file is written beside its place under a name of its own, synced to the disk and renamed; a folder likewise. A writer
that is killed leaves its temporary name behind; the next one to the same place finds it by its name, sees by its lock
that nobody holds it any more, and takes it away. For POSIX systems.
"""

from __future__ import annotations

import ctypes
import errno
import fcntl
import hashlib
import json
import os
import secrets
import stat
import time
from collections.abc import Iterator, Mapping
from concurrent.futures import ThreadPoolExecutor
from contextlib import ExitStack, contextmanager, suppress
from pathlib import Path
from typing import Any, BinaryIO

from halfnut._core import DomainError

__all__ = ["check", "check_folder", "seal", "write", "write_folder", "writing"]

_AT_FDCWD, _NOREPLACE, _EXCHANGE = -100, 1, 2  # linux/fcntl.h, linux/fs.h
_OLD = ".old"
_BLANK = "0" * 64
_HOW = "--replace (in Python replace=True) has it replaced"
_WAIT_S = 30.0
_SYNCING = 8
"""Files that are synced at once; the file system then commits them together."""


def check(path: str | os.PathLike[str], *, replace: bool = False) -> Path:
    """Refuse a file that `write` would refuse, before the work for it begins.

    Parameters
    ----------
    path : path
        Where a file is to be written.
    replace : bool
        Whether an earlier file there may be replaced.

    Returns
    -------
    Path
        The place, made absolute where `path` ends in no name, such as "..".

    Raises
    ------
    DomainError
        Its folder is not there; it is a link, a folder or a device; or a file is there and `replace` is not set.
    """
    place = _in_a_folder(path)
    mode = _mode(place)
    if mode is None:
        return place
    if not stat.S_ISREG(mode):
        raise DomainError(f"{place} is {_kind(mode)}, not a plain file, and stays as it is; name another file")
    if not replace:
        raise DomainError(f"{place} is there already and stays as it is; {_HOW}")
    return place


@contextmanager
def writing(path: str | os.PathLike[str], *, replace: bool = False) -> Iterator[BinaryIO]:
    """A stream whose bytes become the file when the block ends; a block that raises changes nothing.

    The file's mode is that of the file it replaces, else as the umask says.

    Parameters
    ----------
    path : path
        Where the file is to be; its folder must be there.
    replace : bool
        Whether an earlier file there may be replaced.

    Yields
    ------
    BinaryIO
        Of a file under a temporary name beside the place.

    Raises
    ------
    DomainError
        As `check`.
    OSError
        The disk is full, the folder cannot be written to; it names the file.
    """
    place = check(path, replace=replace)
    with _naming(place), ExitStack() as stack:
        with _locked(place.parent):
            _clean(place)
            temporary = _beside(place)
            handle = os.open(temporary, os.O_RDWR | os.O_CREAT | os.O_EXCL, 0o666)
            _lock(handle)
        stack.callback(temporary.unlink, missing_ok=True)
        stream = stack.enter_context(os.fdopen(handle, "wb"))
        yield stream
        stream.flush()
        os.fsync(handle)
        with _locked(place.parent):
            check(place, replace=replace)
            mode = _mode(place)
            if mode is None:
                _into_the_free(temporary, place)
            else:
                os.fchmod(handle, stat.S_IMODE(mode))
                temporary.replace(place)
            _sync(place.parent)


def write(path: str | os.PathLike[str], content: str | bytes, *, replace: bool = False) -> Path:
    """Write a file whole: UTF-8 text with its line ends as given, or bytes; see `writing`.

    Parameters
    ----------
    path : path
        Where; its folder must be there.
    content : str or bytes
        All of the file.
    replace : bool
        Whether an earlier file there may be replaced.

    Returns
    -------
    Path
        The path that was given.
    """
    data = content.encode("utf-8") if isinstance(content, str) else content
    with writing(path, replace=replace) as stream:
        stream.write(data)
    return Path(path)


def check_folder(path: str | os.PathLike[str], manifest: str, *, replace: bool = False) -> Path:
    """Refuse a folder that `write_folder` would refuse, before the work for it begins.

    Parameters
    ----------
    path : path
        Where a folder is to be written.
    manifest : str
        The file in it that says what was written; see `seal`.
    replace : bool
        Whether an earlier folder there may be replaced.

    Returns
    -------
    Path
        As `check`.

    Raises
    ------
    DomainError
        The folder above is not there; it is no folder, or the one Halfnut runs in; it holds something and `replace` is
        not set; or it holds something that is not as an earlier run wrote it.
    """
    place = _in_a_folder(path)
    mode = _mode(place)
    if mode is None:
        return place
    if not stat.S_ISDIR(mode):
        raise DomainError(f"{place} is {_kind(mode)}, not a folder, and stays as it is; name another folder")
    if place.samefile(Path.cwd()):
        raise DomainError(f"{place} is the folder Halfnut runs in, and cannot be exchanged; name a folder in it")
    if not any(place.iterdir()):
        return place
    foreign = strangers(place, manifest)
    if foreign is None:
        raise DomainError(f"{place} is not empty and stays as it is: it holds no earlier plan; name another folder")
    if not replace:
        raise DomainError(f"{place} is not empty and stays as it is; {_HOW}")
    if foreign:
        raise DomainError(
            f"{place} stays as it is: not as Halfnut wrote it: {_some(foreign)}; move that away, or name another folder"
        )
    return place


def write_folder(
    path: str | os.PathLike[str], contents: Mapping[str, str], manifest: str, *, replace: bool = False
) -> Path:
    """Write a folder of files whole: made beside its place, synced, then put there at once.

    Where an earlier one is replaced, the two are exchanged, and the earlier is taken away after that.

    Parameters
    ----------
    path : path
        The folder.
    contents : mapping
        Name and text of every file, sealed by `seal`.
    manifest : str
        The file among them that says what was written; it is written last and taken away last.
    replace : bool
        Whether an earlier folder may be replaced. Only what stayed as it was written is.

    Returns
    -------
    Path
        As `check`.

    Raises
    ------
    DomainError
        As `check_folder`.
    OSError
        The disk is full, the folder above cannot be written to; it names the folder.
    """
    place = _in_a_folder(path)
    data = {name: text.encode("utf-8") for name, text in contents.items()}
    data[manifest] = data.pop(manifest)
    with _naming(place):
        with _locked(place.parent):
            _recover(place)
            _clean(place, manifest)
            check_folder(place, manifest, replace=replace)
            temporary = _beside(place)
            temporary.mkdir()
            handle = os.open(temporary, os.O_RDONLY | os.O_DIRECTORY)
            _lock(handle)
        try:
            _fill(temporary, data)
            with _locked(place.parent):
                check_folder(place, manifest, replace=replace)
                gone = _put(temporary, place, manifest)
                _sync(place.parent)
                if gone is not None:
                    _remove(gone, manifest)
        except BaseException:
            if _is_at(handle, temporary):
                _remove(temporary, manifest)
            raise
        finally:
            os.close(handle)
    return place


def seal(contents: Mapping[str, str], manifest: str, facts: Mapping[str, Any]) -> dict[str, str]:
    """Files with the one that says what was written: facts as JSON, and under `files` the SHA-256 of every file.

    Its own sum is taken with 64 zeros in its place, so that it too shows whether it stayed as written.

    Parameters
    ----------
    contents : mapping
        Name and text of every other file.
    manifest : str
        Name of the file that says what was written.
    facts : mapping
        What it says besides, as JSON holds it, under keys other than ``files``; no NaN.

    Returns
    -------
    dict
        Names and texts, as `write_folder` takes them.
    """
    sums = {name: _sum(text.encode("utf-8")) for name, text in sorted(contents.items())}
    text = json.dumps({**facts, "files": {**sums, manifest: _BLANK}}, indent=1, allow_nan=False)
    before, _, after = text.rpartition(_BLANK)
    return {**contents, manifest: f"{before}{_sum(text.encode('utf-8'))}{after}"}


def strangers(folder: Path, manifest: str) -> list[str] | None:
    """Names of what in a folder is not as it was written; None where nothing says what was written."""
    if not (folder / manifest).is_file():
        return None
    try:
        sums = json.loads((folder / manifest).read_bytes())["files"]
        own = bytes.fromhex(sums[manifest]).hex().encode("ascii")
    except (ValueError, LookupError, TypeError, RecursionError):
        return None
    if len(own) != len(_BLANK):
        return None
    out = []
    for path in sorted(folder.iterdir()):
        mode = _mode(path)
        if path.name in sums and mode is not None and stat.S_ISREG(mode):
            data = path.read_bytes()
            if path.name == manifest:
                before, _, after = data.rpartition(own)
                data = before + _BLANK.encode("ascii") + after
            if _sum(data) == sums[path.name]:
                continue
        out.append(path.name)
    return out


def _sum(data: bytes) -> str:
    return hashlib.sha256(data).hexdigest()


def _some(names: list[str], most: int = 5) -> str:
    more = f" and {len(names) - most} more" if len(names) > most else ""
    return ", ".join(names[:most]) + more


def _in_a_folder(path: str | os.PathLike[str]) -> Path:
    place = Path(path)
    if "\0" in str(place):
        raise DomainError(f"the name of a file cannot hold a NUL character, got {str(place)!r}")
    if place.name in ("", ".."):
        place = Path(os.path.abspath(place))  # noqa: PTH100, resolve() would follow links
    if not place.parent.is_dir():
        raise DomainError(f"{place}: there is no folder {place.parent}; make it first")
    return place


def _mode(path: Path) -> int | None:
    """What is there, links not followed; None where nothing is."""
    try:
        return path.lstat().st_mode
    except FileNotFoundError:
        return None


def _kind(mode: int) -> str:
    kinds = ((stat.S_ISDIR, "a folder"), (stat.S_ISLNK, "a link"), (stat.S_ISREG, "a file"), (stat.S_ISFIFO, "a pipe"))
    return next((name for is_it, name in kinds if is_it(mode)), "a device")


@contextmanager
def _naming(place: Path) -> Iterator[None]:
    """Have faults name the place rather than a temporary name beside it."""
    try:
        yield
    except OSError as error:
        if error.errno is None:
            raise
        raise OSError(error.errno, os.strerror(error.errno), str(place)) from error


@contextmanager
def _locked(folder: Path) -> Iterator[None]:
    """Keep other writers from exchanging anything in a folder; file systems without locks go without."""
    handle = os.open(folder, os.O_RDONLY | os.O_DIRECTORY)
    try:
        end = time.monotonic() + _WAIT_S
        while not _lock(handle):
            if time.monotonic() > end:
                raise OSError(errno.EBUSY, os.strerror(errno.EBUSY), str(folder))
            time.sleep(0.01)
        yield
    finally:
        os.close(handle)


def _lock(handle: int, *, without: bool = True) -> bool:
    """Take a lock; `without` is the answer where the file system has none."""
    try:
        fcntl.flock(handle, fcntl.LOCK_EX | fcntl.LOCK_NB)
    except BlockingIOError:
        return False
    except OSError:
        return without
    return True


def _stem(place: Path) -> str:
    """Beginning of the temporary names of a place, as long for every name."""
    return f".halfnut-{_sum(os.fsencode(place.name))[:16]}-"


def _beside(place: Path) -> Path:
    """A new temporary name of a place; what is made under it is locked before the lock of its folder is let go."""
    return place.with_name(_stem(place) + secrets.token_hex(4))


def _is_at(handle: int, path: Path) -> bool:
    """Whether what is open is there under a name; after an exchange the earlier folder is."""
    try:
        return os.path.samestat(path.lstat(), os.fstat(handle))
    except FileNotFoundError:
        return False


def _leftovers(place: Path) -> list[Path]:
    """Temporary names of a place whose writer is gone."""
    stem = _stem(place)
    out = []
    for path in sorted(each for each in place.parent.iterdir() if each.name.startswith(stem)):
        with suppress(OSError):
            handle = os.open(path, os.O_RDONLY | os.O_NOFOLLOW)
            try:
                if _lock(handle, without=False):
                    out.append(path)
            finally:
                os.close(handle)
    return out


def _clean(place: Path, manifest: str = "") -> None:
    for path in _leftovers(place):
        if not path.is_dir():
            path.unlink(missing_ok=True)
        elif manifest:
            foreign = strangers(path, manifest)
            if foreign:
                raise DomainError(
                    f"{path} is left from an earlier run and was changed since: {_some(foreign)}; move it away"
                )
            _remove(path, manifest)


def _recover(place: Path) -> None:
    """Put an earlier folder back that a killed run had moved aside."""
    if _mode(place) is None:
        for path in _leftovers(place):
            if path.name.endswith(_OLD):
                path.rename(place)
                return


def _fill(folder: Path, data: Mapping[str, bytes]) -> None:
    paths = [folder / name for name in data]
    for path, content in zip(paths, data.values(), strict=True):
        path.write_bytes(content)
    with ThreadPoolExecutor(_SYNCING) as pool:
        for _ in pool.map(_sync, paths):
            pass
    _sync(folder)


def _sync(path: Path) -> None:
    handle = os.open(path, os.O_RDONLY)
    try:
        os.fsync(handle)
    finally:
        os.close(handle)


def _put(temporary: Path, place: Path, manifest: str) -> Path | None:
    """Put a whole folder in its place; what was there is then under the name that is returned."""
    mode = _mode(place)
    if mode is None:
        temporary.rename(place)
        return None
    temporary.chmod(stat.S_IMODE(mode))
    for path in temporary.iterdir():
        before = _mode(place / path.name)
        if before is not None:
            path.chmod(stat.S_IMODE(before))
    if not any(place.iterdir()):
        temporary.rename(place)  # over an empty folder
        return None
    gone = temporary if _rename(temporary, place, _EXCHANGE) else _moved_aside(temporary, place)
    if strangers(gone, manifest) != []:  # changed since it was checked
        if gone == temporary:
            _rename(temporary, place, _EXCHANGE)
        else:
            place.rename(temporary)
            gone.rename(place)
        check_folder(place, manifest, replace=True)
    return gone


def _moved_aside(temporary: Path, place: Path) -> Path:
    """Exchange two folders where the file system cannot do it at once; `_recover` mends a kill between the two."""
    aside = place.with_name(temporary.name + _OLD)
    place.rename(aside)
    try:
        temporary.rename(place)
    except BaseException:
        aside.rename(place)
        raise
    return aside


def _into_the_free(temporary: Path, place: Path) -> None:
    """Rename a file where none is; one that came in the meantime stays."""
    if not _rename(temporary, place, _NOREPLACE):
        check(place)
        temporary.rename(place)


def _rename(old: Path, new: Path, flags: int) -> bool:
    """Rename as Linux can; False where the system or the file system cannot."""
    call = getattr(ctypes.CDLL(None, use_errno=True), "renameat2", None)
    if call is None:
        return False
    if call(_AT_FDCWD, os.fsencode(old), _AT_FDCWD, os.fsencode(new), flags) == 0:
        return True
    number = ctypes.get_errno()
    if number in (errno.ENOSYS, errno.EINVAL, errno.ENOTSUP):
        return False
    raise OSError(number, os.strerror(number), str(new))


def _remove(folder: Path, manifest: str) -> None:
    """Take a folder of plain files away, the one that says what was written last."""
    for path in sorted(folder.iterdir(), key=lambda path: path.name == manifest):
        path.unlink(missing_ok=True)
    folder.rmdir()
