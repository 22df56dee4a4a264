package lungwort.practice;

import lungwort.audio.Recording;

/**
 * A synthesised recording and what is in it. Made for practice, demonstration and checks, never for training.
 *
 * @param scene what was asked for
 * @param recording the sound
 * @param truth what is in it
 */
public record PracticeRecording(PracticeScene scene, Recording recording, Truth truth) {}
