package lungwort.cli;

import lungwort.diary.Diary;
import lungwort.diary.Person;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Option;

/** One person of a diary, who must be named. */
final class DiaryPerson {
    @Mixin
    private final DiaryOption diary = new DiaryOption();

    @Option(names = "--person", required = true, paramLabel = "NICKNAME", description = "Who it is about.")
    private String nickname = "";

    Diary open() {
        return diary.open();
    }

    Person person(Diary diary) {
        return diary.persons().need(nickname);
    }
}
