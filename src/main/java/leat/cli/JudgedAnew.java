package leat.cli;

import leat.replay.Backtest;

/**
 * One machine's past under changed limits.
 *
 * @param plan what was to be judged, and how
 * @param result what came of it
 */
record JudgedAnew(BacktestPlan plan, Backtest result) {}
