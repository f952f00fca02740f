"""Asks event_probe: text in, one parsed line of JSON for each question."""

import json
import subprocess


def ask(program, what, text=""):
    done = subprocess.run([program, what], input=text, capture_output=True, text=True, check=False)
    if done.returncode != 0:
        raise RuntimeError(f"event_probe {what}: {done.stderr.strip()}")
    return [json.loads(line) for line in done.stdout.splitlines()]
