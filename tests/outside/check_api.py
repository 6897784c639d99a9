"""The server's own description of its paths, put through schemathesis (a general fuzzer of OpenAPI
services): whatever it makes up from the description, the server answers, and never with a fault of
its own. Two runs: with names made up as well, and with all requests sent to a job that is there.
Streams of events are left out: they end when the server does.

usage: check_api.py BRIMFUL
"""

import json
import re
import subprocess
import sys
import tempfile
import urllib.request
from pathlib import Path

EXAMPLES = 25
FUZZER = Path(sys.executable).parent / "schemathesis"


def ask(url, body=None):
    data = None if body is None else json.dumps(body).encode()
    request = urllib.request.Request(url, data, {"Content-Type": "application/json"})
    with urllib.request.urlopen(request) as answer:
        return json.load(answer)


def fuzz(base, description, folder):
    path = folder / "openapi.json"
    path.write_text(json.dumps(description))
    command = [
        FUZZER, "run", path, "--url", base, "--checks", "not_a_server_error",
        "--max-examples", str(EXAMPLES), "--seed", "1", "--request-timeout", "60",
        "--generation-database", "none", "--exclude-path-regex", "/events$",
    ]
    done = subprocess.run(command, capture_output=True, text=True)
    if done.returncode != 0:
        sys.exit(done.stdout + done.stderr)
    return int(re.search(r"(\d+) generated", done.stdout).group(1))


def on_a_job(description, name):
    """The description with one name for jobs, and an etag that is taken now and then."""
    for path in description["paths"].values():
        for call in path.values():
            for parameter in call.get("parameters", []):
                if parameter["name"] == "name":
                    parameter["schema"] = {"enum": [name]}
    # A removed job would leave nothing to ask about.
    del description["paths"]["/api/jobs/{name}"]["delete"]
    return description


def main(brimful):
    with tempfile.TemporaryDirectory() as folder:
        folder = Path(folder)
        jobs = folder / "jobs"
        jobs.mkdir()
        server = subprocess.Popen(
            [brimful, "serve", jobs, "--port", "0"], stdout=subprocess.PIPE, text=True
        )
        try:
            port = re.search(r"localhost:(\d+)", server.stdout.readline()).group(1)
            base = f"http://127.0.0.1:{port}"
            ask(f"{base}/api/jobs", {"name": "box", "like": "shelf-box"})
            description = ask(f"{base}/openapi.json")
            count = fuzz(base, description, folder)
            count += fuzz(base, on_a_job(description, "box"), folder)
            assert ask(f"{base}/api/jobs/box")["name"] == "box"
        finally:
            server.kill()
    print(f"api: {count} requests made up by schemathesis, none answered with a fault of the server")


main(sys.argv[1])
