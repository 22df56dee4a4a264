package lungwort.score;

import lungwort.dataset.EventLabel;

/**
 * What a classifier said of one annotated event or breath cycle.
 *
 * @param recording id of its recording
 * @param patient the database's number of the person
 * @param device the database's code for the stethoscope or microphone
 * @param truth what the annotator called it
 * @param calledAdventitious the answer to task 1-1
 * @param called the answer to task 1-2; for ICBHI any label of the cycle class that is meant
 * @param continuous probability that it holds a continuous extra sound
 * @param discontinuous probability that it holds a discontinuous one
 */
public record EventPrediction(
        String recording,
        String patient,
        String device,
        EventLabel truth,
        boolean calledAdventitious,
        EventLabel called,
        double continuous,
        double discontinuous) {}
