"""What a trained model depends on: the data, and the files that read them."""

import hashlib
from pathlib import Path

HERE = Path(__file__).parent
ROOT = HERE.parents[1]
_READERS = ("examples.py", "directive_subjects.py", "train_chapters.py")


def inputs_hash() -> str:
    """SHA-256 over names and contents of all that training reads."""
    digest = hashlib.sha256()
    data = [path for path in sorted((HERE / "data").iterdir()) if path.suffix in (".xz", ".txt")]
    text = ROOT / "indexer" / "tagging" / "inference_text.py"
    for path in (*data, *(HERE / name for name in _READERS), text):
        digest.update(path.name.encode())
        digest.update(path.read_bytes())
    return digest.hexdigest()
