package lungwort.classify;

/**
 * From when on found sounds of one kind are told.
 *
 * @param from from this probability on, in [0, 1]
 * @param ofMostProbable where the whole recording is said to hold such a sound, from this share of the probability of its most probable one on, too: where all probabilities are low, as through a
 *     device that the model has not heard, the limit alone would tell none of the sounds that make it say so. Above 0; infinite for none
 */
record EventLimit(double from, double ofMostProbable) {
    EventLimit {
        if (!(from >= 0 && from <= 1) || !(ofMostProbable > 0)) {
            throw Numbers.damaged("its events' limits are not between 0 and 1");
        }
    }

    /** A probability alone. */
    static EventLimit from(double probability) {
        return new EventLimit(probability, Double.POSITIVE_INFINITY);
    }

    /** Whether a sound is told whatever the recording is said to hold. */
    boolean sure(double probability) {
        return probability >= from;
    }

    /**
     * Whether a sound is told in a recording that is said to hold one of its kind.
     *
     * @param probability of the sound
     * @param most of the most probable one of its kind there
     */
    boolean likely(double probability, double most) {
        return sure(probability) || probability >= ofMostProbable * most;
    }
}
