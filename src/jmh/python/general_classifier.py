"""How well a general classifier tells the causes apart, on the same features as leat's own table.

A yardstick of the benchmark only; leat does not use it. Needs scikit-learn (Debian: python3-sklearn).

    python3 general_classifier.py FIT.csv JUDGED.csv...

Both are written by leat.diagnose.FeatureCsv, FIT.csv with --fit. Sound examples count --healthy
times as much as others, as in FitWeights. With --accused 0.4 what it gives to "sound" is raised
until it accuses at most 0.4 % of the judged sound runs: a fair comparison with what accuses few.
"""

import argparse
import csv
import numpy
from sklearn.ensemble import HistGradientBoostingClassifier, RandomForestClassifier


def read(path, leave_out):
    with open(path, newline="") as file:
        rows = list(csv.reader(file))
    names = rows[0][3:]
    keep = [i for i, name in enumerate(names) if not any(part in name for part in leave_out)]
    numbers = numpy.array(
        [[float(cell) if cell else numpy.nan for cell in row[3:]] for row in rows[1:]]
    )[:, keep]
    cause = numpy.array([row[0] for row in rows[1:]])
    plain = numpy.array([int(row[1]) for row in rows[1:]])
    return numbers, cause, plain


def raised(chance, sound, truth, most):
    """The chances with as much more for "sound" as leaves so many percent of the sound accused."""
    of_sound = chance[truth == "healthy"]
    others = numpy.delete(of_sound, sound, axis=1).max(axis=1)
    needed = numpy.sort(others / numpy.maximum(of_sound[:, sound], 1e-9))[::-1]
    factor = max(1.0, needed[int(most / 100 * len(needed))] * (1 + 1e-9))
    chance = chance.copy()
    chance[:, sound] *= factor
    return chance


def main():
    parser = argparse.ArgumentParser()
    parser.add_argument("fit")
    parser.add_argument("judged", nargs="+")
    parser.add_argument("--healthy", type=float, default=24)
    parser.add_argument("--leave-out", nargs="*", default=[])
    parser.add_argument("--forest", action="store_true")
    parser.add_argument("--accused", type=float)
    given = parser.parse_args()
    numbers, cause, plain = read(given.fit, given.leave_out)
    sound = cause == "healthy"
    weight = numpy.where(sound, given.healthy, numpy.where(plain == 0, 0.15, 1.0))
    if given.forest:
        model = RandomForestClassifier(150, min_samples_leaf=3, random_state=1, n_jobs=1)
        numbers = numpy.nan_to_num(numbers, nan=0)
    else:
        model = HistGradientBoostingClassifier(
            max_iter=120, learning_rate=0.08, max_leaf_nodes=24, l2_regularization=1.0, random_state=1
        )
    model.fit(numbers, cause, sample_weight=weight)
    for path in given.judged:
        judged, truth, grade = read(path, given.leave_out)
        if given.forest:
            judged = numpy.nan_to_num(judged, nan=0)
        chance = model.predict_proba(judged)
        if given.accused is not None:
            chance = raised(chance, list(model.classes_).index("healthy"), truth, given.accused)
        order = numpy.argsort(-chance, axis=1)
        first = model.classes_[order[:, 0]]
        second = model.classes_[order[:, 1]]
        one = first == truth
        two = one | (second == truth)
        print(f"\n{path}: {len(truth)} judged")
        print(f"{'':19} gross n top1 top2     middle               mild                 nothing")
        for name in [*sorted(set(truth)), "all faults"]:
            line = f"{name:19}"
            for g in (3, 2, 1, 0):
                of = (grade == g) & ((truth == name) if name != "all faults" else (truth != "healthy"))
                n = of.sum()
                line += f" {n:5} {100 * one[of].mean():5.1f} {100 * two[of].mean():5.1f}  " if n else " " * 20
            print(line)
        accused = (first != "healthy")[truth == "healthy"]
        print(f"accused {accused.sum()} of {len(accused)} sound ({100 * accused.mean():.2f} %)")


main()
