package lungwort.cli;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.node.ArrayNode;
import com.fasterxml.jackson.databind.node.ObjectNode;
import java.io.IOException;
import java.io.PrintWriter;
import java.nio.charset.CharacterCodingException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.Collections;
import java.util.HashSet;
import java.util.List;
import java.util.NoSuchElementException;
import java.util.Random;
import java.util.Set;
import java.util.concurrent.Callable;
import lungwort.BadInput;
import lungwort.audio.WavWriter;
import lungwort.json.Json;
import lungwort.practice.PracticeCase;
import lungwort.practice.PracticeRecording;
import lungwort.practice.PracticeScenes;
import lungwort.sound.MeasuredSound;
import org.jspecify.annotations.Nullable;
import picocli.CommandLine.Command;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Option;
import picocli.CommandLine.ParameterException;
import picocli.CommandLine.Parameters;
import picocli.CommandLine.Spec;

/** Writes synthesised chest sounds, to train the ear or to try the tool on. */
@Command(
        name = "practice",
        mixinStandardHelpOptions = true,
        description =
                "Make synthesised chest sounds to train your ear: each as a WAV file with a list of what is in it.",
        footer = {
            "",
            "Example: lungwort practice wheeze fine-crackles --out sounds",
            "Example: lungwort practice --quiz 8 --out quiz      (unnamed sounds; the answers are in a file of their own)",
            "Synthesised sounds are cleaner than chests: hearing them all right does not make a listener."
        })
final class PracticeCommand implements Callable<Integer> {
    private static final int MAX_STARTS = 6;

    @Spec
    @SuppressWarnings("NullAway.Init") // picocli sets it before call()
    private CommandSpec spec;

    @Parameters(paramLabel = "KIND", arity = "0..*", description = "Kinds to make; without one, the list is printed.")
    private List<String> kinds = List.of();

    @Option(names = "--out", paramLabel = "DIR", description = "Folder to write into.")
    private @Nullable Path out;

    @Option(
            names = "--quiz",
            paramLabel = "N",
            description = "Make N unnamed sounds in random order, and their answers.")
    private @Nullable Integer asked;

    private int quiz;

    @Option(names = "--seed", paramLabel = "S", description = "Seed of the quiz's order (default: ${DEFAULT-VALUE}).")
    private long seed = 1;

    @Option(names = "--json", description = "Print JSON instead of text.")
    private boolean json;

    @Override
    public Integer call() {
        quiz = asked == null ? 0 : asked;
        if (asked != null && (quiz < 1 || quiz > 200)) {
            throw new ParameterException(spec.commandLine(), "--quiz takes a number from 1 to 200.");
        }
        if (kinds.isEmpty() && quiz == 0) {
            list();
            return 0;
        }
        if (out == null) {
            throw new ParameterException(spec.commandLine(), "Name the folder to write into with --out DIR.");
        }
        List<PracticeCase> cases = kinds.isEmpty()
                ? PracticeScenes.chest()
                : kinds.stream().map(this::one).toList();
        write(quiz == 0 ? cases : drawn(cases), out);
        return 0;
    }

    private PracticeCase one(String id) {
        try {
            return PracticeScenes.of(id);
        } catch (NoSuchElementException e) {
            throw new BadInput("there is no practice sound called " + id + "; 'lungwort practice' lists them.", e);
        }
    }

    private void list() {
        PrintWriter writer = spec.commandLine().getOut();
        ArrayNode array = Json.array();
        for (PracticeCase one : PracticeScenes.all()) {
            if (json) {
                array.add(Json.object()
                        .put("kind", one.id())
                        .put("person", one.person())
                        .put("site", one.site())
                        .put("story", one.story()));
            } else {
                writer.printf("  %-18s %s%n", one.id(), one.story());
            }
        }
        if (json) {
            writer.println(Json.pretty(array));
        } else {
            writer.println(
                    "All people are invented and all sounds synthesised. Make some with: lungwort practice KIND --out DIR");
        }
        writer.flush();
    }

    /** Every kind comes before one comes again, so that a quiz of eight is not six times the same. */
    private List<PracticeCase> drawn(List<PracticeCase> cases) {
        Random random = new Random(seed);
        List<PracticeCase> drawn = new ArrayList<>();
        while (drawn.size() < quiz) {
            List<PracticeCase> deck = new ArrayList<>(cases);
            Collections.shuffle(deck, random);
            drawn.addAll(deck);
        }
        return drawn.subList(0, quiz);
    }

    private void write(List<PracticeCase> cases, Path folder) {
        ArrayNode answers = Json.array();
        String list = quiz == 0 ? "contents" : "answers";
        try {
            Files.createDirectories(folder);
            Set<String> own = own(folder.resolve(list + ".json"));
            requireOwn(folder.resolve(list + ".json"), own);
            requireOwn(folder.resolve(list + ".txt"), own);
            for (int i = 0; i < cases.size(); i++) {
                String name = (quiz == 0 ? cases.get(i).id() : "sound-%02d".formatted(i + 1)) + ".wav";
                PracticeRecording made = cases.get(i).scene().synthesise();
                writeSound(folder.resolve(name), made, own);
                answers.add(answer(cases.get(i), name, made));
            }
            Files.writeString(folder.resolve(list + ".json"), Json.pretty(answers) + "\n", StandardCharsets.UTF_8);
            Files.writeString(folder.resolve(list + ".txt"), words(answers), StandardCharsets.UTF_8);
        } catch (IOException e) {
            throw new BadInput(folder + ": cannot write here; check the folder and the free space.", e);
        }
        PrintWriter writer = spec.commandLine().getOut();
        writer.println(json ? Json.pretty(answers) : written(cases.size(), folder));
        writer.flush();
    }

    /** A recording of somebody may be called wheeze.wav too: only what is the same, or what an earlier list names as synthesised, is written over. */
    private static void writeSound(Path file, PracticeRecording made, Set<String> own) throws IOException {
        byte[] content = WavWriter.toBytes(made.recording(), WavWriter.Encoding.PCM_16);
        boolean isOwn = own.contains(file.getFileName().toString());
        if (Files.exists(file)
                && !isOwn
                && !(Files.isRegularFile(file) && Arrays.equals(Files.readAllBytes(file), content))) {
            throw new BadInput(
                    "%s: there is another sound of this name already; name another folder with --out.".formatted(file));
        }
        WavWriter.write(file, made.recording(), WavWriter.Encoding.PCM_16);
    }

    private static void requireOwn(Path list, Set<String> own) {
        if (Files.exists(list) && own.isEmpty()) {
            throw new BadInput(
                    "%s: this is no list of practice sounds; name another folder with --out.".formatted(list));
        }
    }

    /** The files that a list names; none if there is no such list, or it is another file. */
    private static Set<String> own(Path list) throws IOException {
        Set<String> own = new HashSet<>();
        if (Files.isRegularFile(list)) {
            try {
                JsonNode sounds = Json.parse(Files.readString(list), list.toString());
                sounds.forEach(sound -> own.add(sound.path("file").asText()));
            } catch (BadInput | CharacterCodingException e) {
                return Set.of();
            }
        }
        return own;
    }

    private String written(int sounds, Path folder) {
        return quiz == 0
                ? "Wrote %d %s to %s. Listen with headphones; %s says what is to be heard in each, and when."
                        .formatted(sounds, sounds == 1 ? "sound" : "sounds", folder, folder.resolve("contents.txt"))
                : "Wrote %d %s to %s. Listen to each with headphones and write down what you hear; then look into %s."
                        .formatted(sounds, sounds == 1 ? "sound" : "sounds", folder, folder.resolve("answers.txt"));
    }

    /** For people: what is to be heard in each file, and when the first ones are. */
    private static String words(ArrayNode answers) {
        StringBuilder words = new StringBuilder();
        for (JsonNode answer : answers) {
            words.append("%s: %s%n    %s%n"
                    .formatted(
                            answer.get("file").asText(),
                            answer.get("kind").asText(),
                            answer.get("story").asText()));
            List<String> starts = new ArrayList<>();
            for (JsonNode sound : answer.get("sounds")) {
                starts.add("%s %.1f s"
                        .formatted(
                                sound.get("kind").asText().replace('-', ' '),
                                sound.get("startSeconds").asDouble()));
            }
            int more = starts.size() - MAX_STARTS;
            words.append(
                    starts.isEmpty()
                            ? "    No extra sound is in it.%n".formatted()
                            : "    From the beginning: %s%s.%n"
                                    .formatted(
                                            String.join(", ", starts.subList(0, Math.min(MAX_STARTS, starts.size()))),
                                            more > 0 ? ", and %d more".formatted(more) : ""));
        }
        return words
                + "%nAll of it is synthesised and cleaner than a chest: hearing it all right does not make a listener.%n"
                        .formatted();
    }

    private static ObjectNode answer(PracticeCase one, String file, PracticeRecording made) {
        ObjectNode node = Json.object().put("file", file).put("kind", one.id()).put("story", one.story());
        ArrayNode sounds = node.putArray("sounds");
        for (MeasuredSound sound : made.truth().sounds()) {
            sounds.addObject()
                    .put("kind", sound.kind().id())
                    .put("startSeconds", sound.startSeconds())
                    .put("endSeconds", sound.endSeconds());
        }
        return node;
    }
}
