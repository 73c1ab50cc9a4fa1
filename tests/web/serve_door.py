"""`pinchbolt`'s own command line, serving the copy of the web app that was built with the test door.

Run as `python -m tests.web.serve_door FOLDER COMMAND ...`.
"""

import functools
import sys
from pathlib import Path

from pinchbolt.app import create_app
from pinchbolt.cli import main
from pinchbolt.commands import serve

if __name__ == "__main__":
    serve.create_app = functools.partial(create_app, web_folder=Path(sys.argv.pop(1)))
    main()
