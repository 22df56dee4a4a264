package lungwort.dataset;

import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import lungwort.BadInput;

/** One annotation file of ICBHI: a line for each breath cycle with start, end (seconds), crackles and wheezes (0 or 1). */
final class IcbhiCycles {
    private IcbhiCycles() {}

    static List<AnnotatedEvent> read(Path file) {
        List<AnnotatedEvent> cycles = new ArrayList<>();
        int number = 0;
        for (String line : Folders.text(file).lines().toList()) {
            number++;
            if (!line.isBlank()) {
                cycles.add(cycle(file + ", line " + number, line.strip().split("\\s+")));
            }
        }
        return cycles;
    }

    private static AnnotatedEvent cycle(String place, String[] fields) {
        if (fields.length != 4) {
            throw BadInput.of(
                    "%s: there are %d fields where start, end, crackles and wheezes belong; unpack the download again.",
                    place, fields.length);
        }
        boolean crackle = flag(place, fields[2], "crackles");
        boolean wheeze = flag(place, fields[3], "wheezes");
        return EventChecks.event(place, seconds(place, fields[0]), seconds(place, fields[1]), label(wheeze, crackle));
    }

    private static EventLabel label(boolean wheeze, boolean crackle) {
        return switch (CycleClass.of(wheeze, crackle)) {
            case NORMAL -> EventLabel.NORMAL;
            case CRACKLE -> EventLabel.CRACKLE;
            case WHEEZE -> EventLabel.WHEEZE;
            case BOTH -> EventLabel.WHEEZE_AND_CRACKLE;
        };
    }

    private static boolean flag(String place, String field, String name) {
        if (!field.equals("0") && !field.equals("1")) {
            throw BadInput.of(
                    "%s: %s is '%s', but it must be 0 or 1; correct it or unpack the download again.",
                    place, name, field);
        }
        return field.equals("1");
    }

    private static double seconds(String place, String field) {
        try {
            return Double.parseDouble(field);
        } catch (NumberFormatException e) {
            throw BadInput.because(
                    e, "%s: '%s' is not a time in seconds; correct it or unpack the download again.", place, field);
        }
    }
}
