package lungwort.dataset;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.fail;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Arrays;
import java.util.List;
import java.util.Random;
import java.util.stream.Stream;
import lungwort.BadInput;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.EnumSource;

/** Random damage to one file of a small database: it is read, or refused with one sentence; nothing else happens. */
class FuzzedDatabasesTest {
    private static final int ROUNDS = 250;
    private static final byte[] TELLING =
            "0-9.,:\"'{}[]\\\t\n\rNaEe+_ \0\u007f".getBytes(java.nio.charset.StandardCharsets.UTF_8);

    @TempDir
    Path parent;

    @ParameterizedTest
    @EnumSource(DatabaseKind.class)
    void randomDamageIsReadOrRefusedWithASentence(DatabaseKind kind) throws IOException {
        Path root =
                kind == DatabaseKind.SPRSOUND ? MiniatureDatabases.sprsound(parent) : MiniatureDatabases.icbhi(parent);
        List<Path> files = files(root);
        int refused = 0;
        for (int seed = 0; seed < ROUNDS; seed++) {
            Random random = new Random(seed);
            Path file = files.get(random.nextInt(files.size()));
            byte[] good = Files.readAllBytes(file);
            Files.write(file, damaged(good, random));
            refused += refused(kind, file, seed) ? 1 : 0;
            Files.write(file, good);
        }
        assertThat(refused).isBetween(ROUNDS / 10, ROUNDS);
        assertThat(Databases.open(parent, kind).recordings()).isNotEmpty();
    }

    private boolean refused(DatabaseKind kind, Path file, int seed) {
        try {
            Databases.open(parent, kind);
            return false;
        } catch (BadInput e) {
            assertThat(e.getMessage())
                    .as("seed %d, %s", seed, file)
                    .isNotBlank()
                    .doesNotContain("Exception");
            return true;
        } catch (RuntimeException e) {
            return fail("seed %d, %s".formatted(seed, file), e);
        }
    }

    private static byte[] damaged(byte[] good, Random random) {
        byte[] bytes = good.clone();
        switch (random.nextInt(3)) {
            case 0 -> {
                return Arrays.copyOf(bytes, random.nextInt(bytes.length));
            }
            case 1 -> {
                // the first 100 bytes hold every header
                bytes[random.nextInt(Math.min(100, bytes.length))] = (byte) random.nextInt(256);
            }
            default -> {
                for (int i = 0; i < 3; i++) {
                    bytes[random.nextInt(Math.min(100, bytes.length))] = TELLING[random.nextInt(TELLING.length)];
                }
            }
        }
        return bytes;
    }

    private static List<Path> files(Path root) throws IOException {
        try (Stream<Path> walk = Files.walk(root)) {
            return walk.filter(Files::isRegularFile).sorted().toList();
        }
    }

    @Test
    void jsonNestedADeepWayIsRefused() {
        Path root = MiniatureDatabases.sprsound(parent);
        MiniatureDatabases.text(
                root.resolve("train2022_json/10000001_4.5_0_p1_1.json"), "[".repeat(100_000) + "]".repeat(100_000));
        assertThat(refused(DatabaseKind.SPRSOUND, root, -1)).isTrue();
    }

    @Test
    void aFolderInThePlaceOfAFileIsAMissingFile() throws IOException {
        Path root = MiniatureDatabases.sprsound(parent);
        Path json = root.resolve("train2022_json/10000001_4.5_0_p1_1.json");
        MiniatureDatabases.delete(json);
        Files.createDirectory(json);
        assertThat(refused(DatabaseKind.SPRSOUND, json, -1)).isTrue();
    }
}
