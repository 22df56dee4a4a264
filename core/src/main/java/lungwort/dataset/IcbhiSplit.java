package lungwort.dataset;

import java.nio.file.Files;
import java.nio.file.Path;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import lungwort.BadInput;

/** The official 60/40 split: a line with name and side for each recording. */
final class IcbhiSplit {
    static final String FILE_NAME = "ICBHI_challenge_train_test.txt";

    private final Path file;
    private final Map<String, Split> sides = new HashMap<>();
    private final Map<String, Split> sidesWithoutDevice = new HashMap<>();

    private IcbhiSplit(Path file) {
        this.file = file;
    }

    /** Reads the split beside the recordings or one folder up. */
    static IcbhiSplit read(Path root) {
        Path file = Folders.beside(root, FILE_NAME)
                .orElseThrow(() -> BadInput.of(
                        "%s: the official split %s is missing; put it into that folder (it is a download of its own).",
                        root, FILE_NAME));
        IcbhiSplit split = new IcbhiSplit(file);
        List<String> lines = Folders.text(file).lines().toList();
        for (int i = 0; i < lines.size(); i++) {
            if (!lines.get(i).isBlank()) {
                split.add(i + 1, lines.get(i).strip().split("\\s+"));
            }
        }
        return split;
    }

    private void add(int line, String[] fields) {
        if (fields.length != 2 || !(fields[1].equals("train") || fields[1].equals("test"))) {
            throw BadInput.of(
                    "%s, line %d: it must be a recording's name and train or test; get the file again.", file, line);
        }
        Split side = fields[1].equals("train") ? Split.TRAIN : Split.TEST;
        sides.put(fields[0], side);
        sidesWithoutDevice.put(withoutDevice(fields[0]), side);
    }

    /** One recording (226_1b1_Pl) bears another device in the split than in its file name, so the device is no part of the second key. */
    Split of(Path annotation, String id) {
        Split side = sides.getOrDefault(id, sidesWithoutDevice.get(withoutDevice(id)));
        if (side == null) {
            throw BadInput.of(
                    "%s: the recording is not in the official split %s; get that file again, or take the recording away.",
                    annotation, Files.exists(file) ? file : FILE_NAME);
        }
        return side;
    }

    private static String withoutDevice(String id) {
        int end = id.lastIndexOf('_');
        return end < 0 ? id : id.substring(0, end);
    }
}
