package lungwort.dataset;

import java.nio.file.Path;
import java.util.HashMap;
import java.util.Map;
import java.util.Optional;
import lungwort.BadInput;

/** Ages from ICBHI's {@code demographic_info.txt}: number, age (years), sex, body-mass index, weight, height; NA where unknown. */
final class IcbhiAges {
    private static final String FILE_NAME = "demographic_info.txt";

    private IcbhiAges() {}

    static Map<String, Double> read(Path root, Warnings warnings) {
        Map<String, Double> ages = new HashMap<>();
        Optional<Path> file = Folders.beside(root, FILE_NAME);
        if (file.isEmpty()) {
            warnings.add("%s is not there, so no age is known.".formatted(FILE_NAME));
            return ages;
        }
        for (String line : Folders.text(file.get()).lines().toList()) {
            String[] fields = line.strip().split("\\s+");
            if (fields.length >= 2 && !fields[1].equals("NA")) {
                ages.put(fields[0], years(file.get(), fields));
            }
        }
        return ages;
    }

    private static double years(Path file, String[] fields) {
        try {
            return Double.parseDouble(fields[1]);
        } catch (NumberFormatException e) {
            throw BadInput.because(
                    e,
                    "%s: the age '%s' of patient %s is not a number; get the file again.",
                    file,
                    fields[1],
                    fields[0]);
        }
    }
}
