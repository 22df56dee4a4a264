package lungwort.tests;

import java.io.ByteArrayInputStream;
import java.nio.charset.StandardCharsets;
import java.nio.file.Path;
import java.util.List;
import lungwort.audio.SourceFormat;
import lungwort.breath.Breathing;
import lungwort.diary.Diary;
import lungwort.diary.NewTake;
import lungwort.diary.Person;
import lungwort.diary.Round;
import lungwort.diary.Take;
import lungwort.examine.Examination;
import lungwort.examine.Suggestion;
import lungwort.guidance.Sites;
import lungwort.guidance.TakeReason;
import lungwort.quality.Quality;

/**
 * A process that writes takes to a diary and prints the id of each once it is stored: {@code FOLDER NICKNAME COUNT NAME}. The tests run several at once and kill them.
 */
final class DiaryWriter {
    private DiaryWriter() {}

    public static void main(String[] args) {
        int count = Integer.parseInt(args[2]);
        try (Diary diary = Diary.open(Path.of(args[0]))) {
            Person person = diary.persons().need(args[1]);
            Round round = diary.rounds().start(person.id());
            for (int i = 0; i < count; i++) {
                byte[] sound = (args[3] + " " + i + " " + "x".repeat(50_000)).getBytes(StandardCharsets.UTF_8);
                Take take = diary.takes()
                        .add(
                                new NewTake(round.id(), Sites.of("neck"), TakeReason.FIRST, args[3] + ".wav"),
                                new ByteArrayInputStream(sound));
                diary.takes().examined(take.id(), examination(args[3] + i));
                System.out.println(take.id());
                System.out.flush();
            }
        }
    }

    static Examination examination(String origin) {
        return new Examination(
                origin,
                10,
                SourceFormat.memory(4000),
                Suggestion.NONE_HEARD,
                new Examination.Probabilities(0.1, 0.1, 0.1),
                new Quality(true, List.of()),
                Breathing.NONE,
                List.of(),
                List.of(),
                "none");
    }
}
