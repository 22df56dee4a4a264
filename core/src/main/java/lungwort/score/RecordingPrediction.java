package lungwort.score;

import lungwort.dataset.RecordingLabel;

/**
 * What a classifier said of one annotated recording, in the light of the person's others unless said otherwise.
 *
 * @param recording its id
 * @param patient the database's number of the person
 * @param device the database's code for the stethoscope or microphone
 * @param truth its label in the database
 * @param verdict the answer to task 2-1
 * @param called the answer to task 2-2
 * @param continuous probability that it holds a continuous extra sound
 * @param discontinuous probability that it holds a discontinuous one
 * @param poorQuality probability that a listener would call it too poor to judge
 * @param alone what is answered where the person's other recordings are not seen
 */
public record RecordingPrediction(
        String recording,
        String patient,
        String device,
        RecordingLabel truth,
        RecordingVerdict verdict,
        RecordingLabel called,
        double continuous,
        double discontinuous,
        double poorQuality,
        AloneAnswer alone) {}
