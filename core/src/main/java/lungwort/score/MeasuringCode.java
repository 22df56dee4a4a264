package lungwort.score;

import java.io.IOException;
import java.io.UncheckedIOException;
import java.net.URISyntaxException;
import java.net.URL;
import java.nio.charset.StandardCharsets;
import java.nio.file.FileSystem;
import java.nio.file.FileSystems;
import java.nio.file.Files;
import java.nio.file.Path;
import java.security.MessageDigest;
import java.security.NoSuchAlgorithmException;
import java.util.HexFormat;
import java.util.List;
import java.util.stream.Stream;

/** The digest of the compiled code that measures recordings, whether it lies in a folder or in a jar. */
final class MeasuringCode {
    /** The packages that numbers come from; and of this package, what alters sound before. */
    private static final List<String> PACKAGES =
            List.of("audio", "signal", "heart", "breath", "sound", "quality", "feature");

    private MeasuringCode() {}

    static String digest() {
        URL where = MeasuringCode.class.getProtectionDomain().getCodeSource().getLocation();
        try {
            Path place = Path.of(where.toURI());
            if (Files.isDirectory(place)) {
                return digest(place);
            }
            try (FileSystem jar = FileSystems.newFileSystem(place)) {
                return digest(jar.getPath("/"));
            }
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        } catch (URISyntaxException e) {
            throw new IllegalStateException("code from " + where, e);
        }
    }

    private static String digest(Path root) throws IOException {
        MessageDigest sha = sha256();
        for (Path file : files(root)) {
            sha.update(root.relativize(file).toString().replace('\\', '/').getBytes(StandardCharsets.UTF_8));
            sha.update(Files.readAllBytes(file));
        }
        return HexFormat.of().formatHex(sha.digest());
    }

    private static List<Path> files(Path root) throws IOException {
        try (Stream<Path> all = Files.walk(root.resolve("lungwort"))) {
            return all.filter(Files::isRegularFile)
                    .filter(file -> measures(root.relativize(file)))
                    .sorted((a, b) -> a.toString().compareTo(b.toString()))
                    .toList();
        }
    }

    private static boolean measures(Path file) {
        String folder = file.getName(1).toString();
        return PACKAGES.contains(folder)
                || folder.equals("score")
                        && file.getFileName()
                                .toString()
                                .matches("(Alteration|AlterationRow|Examined|MeasuredFile|Measurer)(\\$.*)?\\.class");
    }

    private static MessageDigest sha256() {
        try {
            return MessageDigest.getInstance("SHA-256");
        } catch (NoSuchAlgorithmException e) {
            throw new IllegalStateException("every Java platform must have SHA-256", e);
        }
    }
}
