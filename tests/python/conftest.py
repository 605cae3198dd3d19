"""No test reads or writes what the person who runs it has the command remember."""

import atexit
import os
import shutil
import tempfile

_folder = tempfile.mkdtemp()
atexit.register(shutil.rmtree, _folder, ignore_errors=True)
os.environ["XDG_CONFIG_HOME"] = _folder
