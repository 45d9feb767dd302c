/**
 * The bench: makes invented feed-water signals and offers them over real Modbus TCP and real MQTT.
 *
 * <p>Shares no code with leat itself: the two meet on the wire only. {@link leat.bench.Bench} plays
 * a scenario on panels in real time; {@link leat.bench.scenario.ScenarioRun} gives the same samples
 * offline; {@link leat.bench.Farm} is many machines for a load measurement.
 */
package leat.bench;
