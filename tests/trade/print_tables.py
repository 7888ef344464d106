"""Prints `fieldnotes/trade/tables.json` anew: exact limits out of SciPy, so that a morning need not load it.

python tests/trade/print_tables.py > fieldnotes/trade/tables.json
"""

import json

from scipy import special

MOST_MITES = 300
MOST_FREEDOM = 200


def tables() -> dict:
    """Garwood's 95 % limits for counts of 0, 0.5, 1 … and Student's 97.5 % quantile for 1, 2 … degrees of freedom."""
    counts = [half / 2 for half in range(2 * MOST_MITES + 1)]
    garwood = [
        [float(special.gammaincinv(k, 0.025)) if k else 0.0, float(special.gammaincinv(k + 1, 0.975))] for k in counts
    ]
    return {
        "garwood_95": garwood,
        "student_975": [float(special.stdtrit(n, 0.975)) for n in range(1, MOST_FREEDOM + 1)],
    }


if __name__ == "__main__":
    body = ",\n".join(
        f'"{name}": [\n' + ",\n".join(json.dumps(row) for row in rows) + "\n]" for name, rows in tables().items()
    )
    print("{\n" + body + "\n}")
