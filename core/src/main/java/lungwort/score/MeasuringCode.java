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
import java.util.List;
import java.util.function.Predicate;
import java.util.stream.Collectors;
import java.util.stream.Stream;
import lungwort.Sha256;

/**
 * The digest of all that computes what is measured in recordings: our compiled code, the libraries it calls, and the Java machine, whose own sine and logarithm may differ in the last digit. Code has the
 * same digest whether it lies in a folder, in a jar of its own or in one jar with everything.
 */
final class MeasuringCode {
    /** The packages that numbers come from; and of this package, what alters sound before. */
    private static final List<String> PACKAGES =
            List.of("audio", "signal", "heart", "breath", "sound", "quality", "feature");

    /**
     * Code that numbers come from.
     *
     * @param example a class of it: it tells where the rest lies
     * @param folder where its classes lie there
     */
    private record Library(String example, String folder) {}

    /** Fourier transforms with the arrays they stand on, statistics and linear algebra, resampling and pitch. */
    private static final List<Library> LIBRARIES = List.of(
            new Library("org.jtransforms.fft.DoubleFFT_1D", "org/jtransforms"),
            new Library("org.visnow.jlargearrays.LargeArray", "org/visnow/jlargearrays"),
            new Library("org.apache.commons.math3.distribution.NormalDistribution", "org/apache/commons/math3"),
            new Library("be.tarsos.dsp.resample.Resampler", "be/tarsos/dsp"));

    private MeasuringCode() {}

    static String digest() {
        MessageDigest sha = Sha256.start();
        add(sha, MeasuringCode.class, "lungwort", MeasuringCode::measures);
        LIBRARIES.forEach(library -> add(sha, named(library.example()), library.folder(), file -> true));
        add(sha, machine());
        return Sha256.hex(sha);
    }

    /** The Java machine and the processor it computes on. */
    private static String machine() {
        return Stream.of("java.vm.name", "java.vm.version", "os.arch")
                .map(name -> System.getProperty(name, ""))
                .collect(Collectors.joining("\n"));
    }

    /** By name, for only the packages that use a library may stand on it. */
    private static Class<?> named(String name) {
        try {
            return Class.forName(name, false, MeasuringCode.class.getClassLoader());
        } catch (ClassNotFoundException e) {
            throw new IllegalStateException(name + " is missing from the libraries", e);
        }
    }

    /** The digest of one library's classes alone. */
    static String digest(Class<?> example, String folder) {
        MessageDigest sha = Sha256.start();
        add(sha, example, folder, file -> true);
        return Sha256.hex(sha);
    }

    private static void add(MessageDigest sha, Class<?> example, String folder, Predicate<Path> which) {
        URL where = example.getProtectionDomain().getCodeSource().getLocation();
        try {
            Path place = Path.of(where.toURI());
            if (Files.isDirectory(place)) {
                add(sha, place, folder, which);
                return;
            }
            try (FileSystem jar = FileSystems.newFileSystem(place)) {
                add(sha, jar.getPath("/"), folder, which);
            }
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        } catch (URISyntaxException e) {
            throw new IllegalStateException("code from " + where, e);
        }
    }

    private static void add(MessageDigest sha, Path root, String folder, Predicate<Path> which) throws IOException {
        List<Path> files;
        try (Stream<Path> all = Files.walk(root.resolve(folder))) {
            files = all.filter(Files::isRegularFile)
                    .filter(file -> which.test(root.relativize(file)))
                    .sorted((a, b) -> a.toString().compareTo(b.toString()))
                    .toList();
        }
        for (Path file : files) {
            add(sha, root.relativize(file).toString().replace('\\', '/'));
            sha.update(Files.readAllBytes(file));
        }
    }

    private static void add(MessageDigest sha, String words) {
        sha.update(words.getBytes(StandardCharsets.UTF_8));
    }

    private static boolean measures(Path file) {
        String folder = file.getName(1).toString();
        return PACKAGES.contains(folder)
                || folder.equals("score")
                        && file.getFileName()
                                .toString()
                                .matches("(Alteration|AlterationRow|Examined|MeasuredFile|Measurer)(\\$.*)?\\.class");
    }
}
