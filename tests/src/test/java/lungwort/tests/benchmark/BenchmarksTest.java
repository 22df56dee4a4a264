package lungwort.tests.benchmark;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.Collection;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.condition.EnabledIfSystemProperty;
import org.openjdk.jmh.results.RunResult;
import org.openjdk.jmh.runner.Runner;
import org.openjdk.jmh.runner.RunnerException;
import org.openjdk.jmh.runner.options.OptionsBuilder;

/**
 * Runs the benchmarks and prints their table; asserts nothing about time. {@code mvn -pl tests -am test -Dtest=BenchmarksTest -Dlungwort.benchmarks=true
 * -Dsurefire.failIfNoSpecifiedTests=false}
 */
class BenchmarksTest {
    @Test
    @EnabledIfSystemProperty(
            named = "lungwort.benchmarks",
            matches = "true",
            disabledReason =
                    "benchmarks take minutes and a quiet machine; ask for them with -Dlungwort.benchmarks=true")
    void everyBenchmarkRuns() throws RunnerException {
        Collection<RunResult> results = new Runner(new OptionsBuilder()
                        .include("lungwort\\.tests\\.benchmark\\..*")
                        .build())
                .run();
        assertThat(results).isNotEmpty();
    }
}
