"""Where machine code is kept that was made of functions as they are written: a cache of this user.

Its name is made of the functions' own text, so that a changed function is never answered by an old one.
"""

from __future__ import annotations

import hashlib
import os
import sys
import tempfile
from collections.abc import Iterable
from pathlib import Path


def code_folder(files: Iterable[str]) -> Path:
    """Where the compiled code of exactly these files is kept; where nothing can be, for this run only."""
    text = b"".join(Path(file).read_bytes() for file in files)
    name = f"{hashlib.sha256(text).hexdigest()[:16]}-{sys.version_info[0]}{sys.version_info[1]}"
    folder = Path(os.environ.get("XDG_CACHE_HOME") or Path.home() / ".cache") / "panewright" / name
    try:
        folder.mkdir(parents=True, exist_ok=True)
    except OSError:
        return Path(tempfile.mkdtemp(prefix="panewright-"))
    return folder if os.access(folder, os.W_OK) else Path(tempfile.mkdtemp(prefix="panewright-"))
