package lungwort.cli;

import java.io.IOException;
import java.io.PrintWriter;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.OffsetDateTime;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Objects;
import java.util.UUID;
import java.util.concurrent.Callable;
import lungwort.BadInput;
import lungwort.audio.ReadingOptions;
import lungwort.audio.Recording;
import lungwort.audio.RecordingReader;
import lungwort.audio.WavWriter;
import lungwort.diary.Diary;
import lungwort.diary.NewTake;
import lungwort.diary.Person;
import lungwort.diary.RecordingStore;
import lungwort.diary.Round;
import lungwort.diary.Take;
import lungwort.guidance.Site;
import lungwort.guidance.Sites;
import lungwort.guidance.TakeReason;
import lungwort.round.RoundFile;
import lungwort.round.RoundFile.FileTake;
import lungwort.round.RoundService;
import lungwort.round.RoundView;
import org.jspecify.annotations.Nullable;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Option;
import picocli.CommandLine.Parameters;
import picocli.CommandLine.ParentCommand;
import picocli.CommandLine.Spec;

/** Adds recordings to a round. */
@Command(
        name = "add",
        mixinStandardHelpOptions = true,
        description = {
            "Add recordings to the open round of a person (begun within the last 12 hours), or to a new one.",
            "A file is put at the site that --site names, or that its own name begins with: back-lower-left.wav, back-lower-left-after-cough.wav.",
            "With --channel left or right that channel alone is kept in the diary, without loss; the file itself stays as it is.",
            "A folder is added as its round.json says: {\"person\":\"Mia\", \"startedAt\":\"2026-03-01T07:30\", \"dangerSigns\":{\"yes\":[],\"no\":[\"blue\"]} or \"none\","
                    + " \"vitals\":{\"spo2Percent\":95}, \"symptoms\":{\"fever\":false}, \"medicines\":\"..\", \"note\":\"..\","
                    + " \"takes\":[{\"file\":\"1.wav\", \"site\":\"back-lower-left\", \"take\":\"after-cough\"}]}.",
            "startedAt is the time on the clocks here, or any with its offset from UTC: 2026-03-01T07:30+01:00."
        },
        footer = {
            "",
            "Example: lungwort round add cough.wav --person Mia --site back-lower-left --take after-cough",
            "         lungwort round add monday-morning/ --person Mia"
        })
final class RoundAddCommand implements Callable<Integer> {
    @ParentCommand
    private @Nullable RoundCommand parent;

    @Spec
    private @Nullable CommandSpec spec;

    @Parameters(paramLabel = "FILE", arity = "1..*", description = "Recordings, or one folder with a round.json.")
    private List<Path> paths = List.of();

    @Mixin
    private final WhichRound which = new WhichRound();

    @Option(names = "--site", paramLabel = "SITE", description = "Where; `lungwort round sites` lists them.")
    private @Nullable String site;

    @Option(
            names = "--take",
            paramLabel = "WHY",
            description = "first, moved, after-deep-breaths or after-cough (without it: first).")
    private @Nullable String reason;

    @Mixin
    private final ChannelOption channel = new ChannelOption();

    @Option(
            names = "--breath-heard",
            paramLabel = "yes|no",
            description = "Whether you clearly heard breath there. A chest in which hardly any air moves is a danger.")
    private AnswerOptions.@Nullable YesNo breathHeard;

    @Option(
            names = "--known-to-clinician",
            description = "A clinician has heard this sound and calls it usual for this person.")
    private boolean known;

    @Mixin
    private final AnswerOptions answers = new AnswerOptions();

    @Override
    public Integer call() {
        RoundCommand command = Objects.requireNonNull(parent);
        PrintWriter out = Objects.requireNonNull(spec).commandLine().getOut();
        PrintWriter err = Objects.requireNonNull(spec).commandLine().getErr();
        try (Diary diary = which.open()) {
            RoundService service = command.services().of(diary);
            boolean folder = Files.isDirectory(paths.get(0));
            if (folder && (paths.size() > 1 || site != null || reason != null)) {
                throw new BadInput(
                        "A folder is added alone and as its %s says; leave out other files, --site and --take."
                                .formatted(RoundFile.NAME));
            }
            RoundFile file = folder ? RoundFile.read(paths.get(0), diary.clock().getZone()) : null;
            List<FileTake> takes = file == null ? named() : file.takes();
            List<String> unusable = file == null && wouldBegin(diary) ? unusable(service, takes) : List.of();
            if (!unusable.isEmpty() && unusable.size() == takes.size()) {
                // A round that holds nothing would stand in the diary, and be the one that is finished or reported.
                return tell(unusable, err);
            }
            Opened opened = file == null ? openRound(diary) : roundOf(diary, file);
            Round round = answered(service, opened.round().id());
            RoundView view = command.ask(service, round, answers, which.json() || folder, out);
            List<String> errors = add(service, view.round().id(), takes);
            if (opened.begun() && !errors.isEmpty() && errors.size() == takes.size() && takenBack(diary, round.id())) {
                return tell(errors, err);
            }
            answers.sayWhatPausesWere(diary, view.round().id());
            if (which.json() || errors.size() < takes.size()) {
                RoundCommand.print(service, service.view(view.round().id()), which.json(), out);
            }
            return errors.isEmpty() ? 0 : tell(errors, err);
        }
    }

    /**
     * The round that is added to.
     *
     * @param begun true if it was begun for these recordings
     */
    private record Opened(Round round, boolean begun) {}

    private static boolean takenBack(Diary diary, UUID roundId) {
        try {
            return diary.rounds().takeBackIfEmpty(roundId);
        } catch (BadInput e) {
            // On a disk that is full it may have to stay; why nothing was added is told all the same.
            return false;
        }
    }

    private static int tell(List<String> errors, PrintWriter err) {
        errors.forEach(e -> err.println("lungwort: " + e));
        err.flush();
        return Main.EXIT_BAD_INPUT;
    }

    private List<String> unusable(RoundService service, List<FileTake> takes) {
        List<String> errors = new ArrayList<>();
        for (FileTake take : takes) {
            try {
                Kept kept = kept(take.file());
                Recording unused = service.read(kept.content(), kept.name());
            } catch (BadInput e) {
                errors.add(notAdded(take, e));
            }
        }
        return errors;
    }

    private static String notAdded(FileTake take, BadInput e) {
        return "%s was not added: %s".formatted(take.file(), e.getMessage());
    }

    private Round answered(RoundService service, UUID roundId) {
        Diary diary = service.diary();
        Round before = diary.rounds().get(roundId);
        Person person = diary.persons().get(before.personId());
        return service.storing(
                person,
                answers.apply(before, person),
                () -> diary.together(() -> {
                    Round round = diary.rounds().get(roundId);
                    Round answered = answers.apply(round, person);
                    if (!answered.equals(round)) {
                        diary.rounds().change(answered);
                    }
                    return answered;
                }));
    }

    /** One bad file among many must not lose the others: its sentence comes at the end. */
    private List<String> add(RoundService service, UUID roundId, List<FileTake> takes) {
        List<String> errors = new ArrayList<>();
        for (FileTake take : takes) {
            try {
                Kept kept = kept(take.file());
                NewTake added = new NewTake(
                        roundId, take.site(), take.reason(), kept.name(), take.breathHeard(), take.knownToClinician());
                if (!service.holds(added, kept.content())) {
                    service.refuseElsewhere(added, kept.content(), own -> RoundTakeOutCommand.how(service, own));
                    refuseOtherChannel(service, added, take.file(), kept);
                    Take unused = service.add(added, kept.content());
                }
            } catch (BadInput e) {
                errors.add(notAdded(take, e));
            }
        }
        return errors;
    }

    /**
     * What is to be kept of a file.
     *
     * @param content its bytes, or one channel of it as a WAV of its own, so that all that reads it later hears what was examined
     * @param name how the diary calls it
     */
    @SuppressWarnings("ArrayRecordComponent") // passed on at once, never compared
    private record Kept(byte[] content, String name) {}

    private Kept kept(Path file) {
        byte[] content = bytes(file);
        String name = String.valueOf(file.getFileName());
        if (!channel.one()) {
            return new Kept(content, name);
        }
        Recording recording = RecordingReader.read(content, name, channel.reading());
        return recording.source().channels() < 2
                ? new Kept(content, name)
                : new Kept(alone(recording), "%s (%s channel).wav".formatted(name, channel.words()));
    }

    private static byte[] alone(Recording channel) {
        return WavWriter.toBytes(channel, WavWriter.Encoding.FLOAT_32);
    }

    private static void refuseOtherChannel(RoundService service, NewTake added, Path file, Kept kept) {
        byte[] whole = bytes(file);
        List<byte[]> channels = new ArrayList<>();
        for (ReadingOptions.Channels one : List.of(ReadingOptions.Channels.LEFT, ReadingOptions.Channels.RIGHT)) {
            Recording recording;
            try {
                recording = RecordingReader.read(whole, kept.name(), new ReadingOptions(one));
            } catch (BadInput e) {
                // Whether it can be read at all is for the service to say, when it is added.
                return;
            }
            if (recording.source().channels() < 2) {
                return;
            }
            byte[] alone = alone(recording);
            if (!Arrays.equals(alone, kept.content())) {
                channels.add(alone);
            }
        }
        service.refuseOtherChannel(
                added,
                channels,
                Arrays.equals(whole, kept.content()) ? null : whole,
                own -> RoundTakeOutCommand.how(service, own));
    }

    private static byte[] bytes(Path file) {
        try {
            if (!Files.isRegularFile(file)) {
                throw new BadInput("there is no such file; check the name and the folder.");
            }
            if (Files.size(file) > RecordingStore.MAX_BYTES) {
                throw new BadInput("it is longer than %d MB; cut it to the breaths that matter."
                        .formatted(RecordingStore.MAX_BYTES / 1_000_000));
            }
            return Files.readAllBytes(file);
        } catch (IOException e) {
            throw new BadInput("it cannot be read; check its permissions.", e);
        }
    }

    private List<FileTake> named() {
        List<FileTake> takes = new ArrayList<>();
        for (Path path : paths) {
            String name = String.valueOf(path.getFileName());
            Site at = site != null ? Sites.of(site) : siteOf(name);
            TakeReason why = reason != null ? TakeReason.ofId(reason) : reasonOf(name, at);
            Boolean heard = breathHeard == null ? null : (Boolean) (breathHeard == AnswerOptions.YesNo.yes);
            takes.add(new FileTake(path, at, why, heard, known));
        }
        return takes;
    }

    private static Site siteOf(String name) {
        return Sites.catalogue().stream()
                .filter(s -> name.startsWith(s.id()))
                .findFirst()
                .orElseThrow(() -> new BadInput(
                        "%s: at which site was it made? Name it with --site, or begin the file's name with it (back-lower-left.wav); `lungwort round sites` lists them."
                                .formatted(name)));
    }

    private static TakeReason reasonOf(String name, Site at) {
        String rest = name.startsWith(at.id()) ? name.substring(at.id().length()) : "";
        for (TakeReason reason : TakeReason.values()) {
            if (rest.startsWith("-" + reason.id())) {
                return reason;
            }
        }
        return TakeReason.FIRST;
    }

    private Opened openRound(Diary diary) {
        if (which.id() != null) {
            return new Opened(which.round(diary), false);
        }
        Person person = which.person(diary);
        return RoundService.goingOn(diary, person)
                .map(round -> new Opened(round, false))
                .orElseGet(() -> new Opened(diary.rounds().start(person.id()), true));
    }

    private boolean wouldBegin(Diary diary) {
        return which.id() == null
                && RoundService.goingOn(diary, which.person(diary)).isEmpty();
    }

    /** A folder that says when its round began is added to that round once more without doubling it. */
    private Opened roundOf(Diary diary, RoundFile file) {
        Person person =
                file.person() == null ? which.person(diary) : diary.persons().need(file.person());
        return diary.together(() -> {
            Opened opened = which.id() != null ? new Opened(which.round(diary), false) : begun(diary, person, file);
            Round round = opened.round();
            Round answered = file.onto(round, person.age(round.day()), person.conditions());
            if (!answered.equals(round)) {
                diary.rounds().change(answered);
            }
            boolean noted = diary.notes().ofRound(round.id()).stream()
                    .anyMatch(n -> n.words().equals(file.note()));
            if (file.note() != null && !noted) {
                diary.notes().add(person.id(), round.id(), file.note());
            }
            return new Opened(answered, opened.begun());
        });
    }

    private static Opened begun(Diary diary, Person person, RoundFile file) {
        OffsetDateTime startedAt = file.startedAt();
        if (startedAt == null) {
            return new Opened(diary.rounds().start(person.id()), true);
        }
        return diary.rounds().ofPerson(person.id()).stream()
                .filter(r -> r.startedAt().toInstant().equals(startedAt.toInstant()))
                .findFirst()
                .map(round -> new Opened(round, false))
                .orElseGet(() -> new Opened(diary.rounds().start(person.id(), startedAt), true));
    }
}
