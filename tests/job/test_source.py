import os
from pathlib import Path

import pytest

from models.job.errors import JobError
from models.job.reader import read_job
from models.job.source import read_source
from tests.job.sample import text


def test_reads_utf8_with_or_without_a_byte_order_mark(tmp_path: Path) -> None:
    path = tmp_path / "a.yaml"
    path.write_bytes(b"\xef\xbb\xbfjob: L\xc3\xa5ven\n")
    assert read_source(path) == "job: Låven\n"


def test_a_whole_job_is_read_from_its_file(tmp_path: Path) -> None:
    path = tmp_path / "galley.yaml"
    path.write_text(text(), encoding="utf-8")
    assert read_job(path).name == "Galley"


def test_a_missing_file(tmp_path: Path) -> None:
    path = tmp_path / "none.yaml"
    with pytest.raises(JobError, match=r"none\.yaml: there is no such file; check the name"):
        read_source(path)


def test_a_folder_in_place_of_a_file(tmp_path: Path) -> None:
    with pytest.raises(JobError, match="is a folder; name the job file inside it"):
        read_source(tmp_path)


def test_a_path_through_a_file(tmp_path: Path) -> None:
    (tmp_path / "a.yaml").write_text("job: a\n")
    with pytest.raises(JobError, match=r"cannot be read \(Not a directory\)"):
        read_source(tmp_path / "a.yaml" / "b.yaml")


def test_a_path_no_system_takes() -> None:
    with pytest.raises(JobError, match="is not a usable path"):
        read_source(Path("a\0b.yaml"))


def test_a_name_too_long_for_the_system(tmp_path: Path) -> None:
    with pytest.raises(JobError, match=r"cannot be read \(File name too long\)"):
        read_source(tmp_path / ("a" * 5000))


@pytest.mark.skipif(not hasattr(os, "mkfifo"), reason="needs named pipes")
def test_a_pipe_is_not_waited_for(tmp_path: Path) -> None:
    path = tmp_path / "pipe"
    os.mkfifo(path)
    with pytest.raises(JobError, match="is not an ordinary file"):
        read_source(path)


@pytest.mark.parametrize("content", [b"", b"\n \n\t"])
def test_an_empty_file(tmp_path: Path, content: bytes) -> None:
    path = tmp_path / "empty.yaml"
    path.write_bytes(content)
    with pytest.raises(JobError, match="is empty; start from a template: startrow new"):
        read_source(path)


def test_a_file_of_five_megabytes(tmp_path: Path) -> None:
    path = tmp_path / "big.yaml"
    path.write_bytes(b"# filler\n" * 560_000)
    with pytest.raises(JobError, match=r"is 5\.0 MB, more than a job file can be \(1 MB\)"):
        read_source(path)


def test_another_encoding_is_named_with_its_line(tmp_path: Path) -> None:
    path = tmp_path / "old.yaml"
    path.write_bytes("job: a\nsystem: L\u00e5ven\n".encode("latin-1"))
    with pytest.raises(JobError, match=r"old\.yaml:2: is not UTF-8 text; save it as UTF-8"):
        read_source(path)


def test_an_unreadable_file(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    path = tmp_path / "locked.yaml"
    path.write_text("job: a\n")

    def refuse(*_: object, **__: object) -> None:
        raise PermissionError(13, "Permission denied")

    monkeypatch.setattr(Path, "open", refuse)
    with pytest.raises(JobError, match=r"cannot be read \(Permission denied\); check the path"):
        read_source(path)
