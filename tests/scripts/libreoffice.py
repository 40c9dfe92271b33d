"""Starts LibreOffice without a window, with the Python that python3-uno belongs to."""

import os
import subprocess
import time
from pathlib import Path

import uno
from com.sun.star.connection import NoConnectException

START_SECONDS = 60


def started(folder):
    """LibreOffice, and what opens documents in it."""
    pipe = f"kerfbook{os.getpid()}"
    office = subprocess.Popen(
        [
            "soffice",
            "--headless",
            "--norestore",
            "--nologo",
            "--nodefault",
            f"--accept=pipe,name={pipe};urp",
            f"-env:UserInstallation={Path(folder).as_uri()}",
        ],
        stdout=subprocess.DEVNULL,
        stderr=subprocess.DEVNULL,
    )
    local = uno.getComponentContext()
    resolver = local.ServiceManager.createInstanceWithContext(
        "com.sun.star.bridge.UnoUrlResolver", local
    )
    address = f"uno:pipe,name={pipe};urp;StarOffice.ComponentContext"
    until = time.monotonic() + START_SECONDS
    while True:
        try:
            context = resolver.resolve(address)
            break
        except NoConnectException:
            if time.monotonic() > until:
                office.kill()
                raise
            time.sleep(0.1)
    desktop = context.ServiceManager.createInstanceWithContext(
        "com.sun.star.frame.Desktop", context
    )
    return office, desktop
