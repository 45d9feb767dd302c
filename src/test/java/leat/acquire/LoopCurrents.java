package leat.acquire;

/** What two transducers give now, in whole mA: 4 mA is 0 psi, 20 mA is 200 psi. Thread-safe. */
public final class LoopCurrents {

    private volatile int inlet;
    private volatile int boosted;

    LoopCurrents(int inlet, int boosted) {
        this.inlet = inlet;
        this.boosted = boosted;
    }

    void become(int newInlet, int newBoosted) {
        inlet = newInlet;
        boosted = newBoosted;
    }

    public int inlet() {
        return inlet;
    }

    public int boosted() {
        return boosted;
    }
}
