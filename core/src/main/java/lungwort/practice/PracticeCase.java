package lungwort.practice;

/**
 * A scene with an invented person around it.
 *
 * @param id short name in files, for example {@code fine-crackles}
 * @param person an invented person; nobody real is meant
 * @param site where the chest piece stood, in words
 * @param story what is to be heard, in a sentence
 * @param scene the sound
 */
public record PracticeCase(String id, String person, String site, String story, PracticeScene scene) {}
