package lungwort.cli;

import lungwort.BadInput;
import lungwort.diary.Diary;
import lungwort.diary.Person;
import lungwort.diary.Round;
import org.jspecify.annotations.Nullable;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Option;

/** Which round of whom, and how to print it. */
final class WhichRound {
    @Mixin
    private final DiaryOption diary = new DiaryOption();

    @Option(names = "--person", paramLabel = "NICKNAME", description = "Whose round.")
    private @Nullable String nickname;

    @Option(
            names = "--round",
            paramLabel = "ID",
            description = "Which round, by the first characters of its id; without it, the newest of the person.")
    private @Nullable String id;

    @Option(names = "--json", description = "Print JSON instead of text.")
    private boolean json;

    Diary open() {
        return diary.open();
    }

    boolean json() {
        return json;
    }

    Person person(Diary diary) {
        if (nickname != null) {
            return diary.persons().need(nickname);
        }
        if (id != null) {
            return diary.persons().get(diary.rounds().byPrefix(id).personId());
        }
        return onlyPerson(diary);
    }

    private static Person onlyPerson(Diary diary) {
        var all = diary.persons().all();
        if (all.size() == 1) {
            return all.get(0);
        }
        throw new BadInput(
                all.isEmpty()
                        ? "This diary knows nobody yet; add the person first: lungwort diary person add NICKNAME --born YYYY-MM"
                        : "Whose round? Name one with --person: %s."
                                .formatted(String.join(
                                        ", ", all.stream().map(Person::nickname).toList())));
    }

    @Nullable
    String id() {
        return id;
    }

    /** The round named, else the newest of the person. */
    Round round(Diary diary) {
        if (id != null) {
            return nickname == null
                    ? diary.rounds().byPrefix(id)
                    : DiaryRound.of(diary, diary.persons().need(nickname), id);
        }
        return DiaryRound.newest(diary, person(diary));
    }
}
