package lungwort.compare;

import java.io.PrintWriter;
import java.util.EnumSet;
import java.util.List;
import java.util.Set;

/** Comparisons as text, as {@code compare} prints them. */
public final class ComparisonText {
    private static final int NAME_WIDTH = 58;

    private ComparisonText() {}

    public static void print(Comparison c, List<Clearing> clearings, PrintWriter out) {
        out.printf("%s: %s%n", c.relation().first(), c.first().name());
        out.printf("%s: %s%n%n", c.relation().second(), c.second().name());
        c.findings().forEach(f -> out.println("- " + f));
        clearings.forEach(k -> out.println("- " + k.words()));
        c.notComparable().forEach(n -> out.println("- " + n));
        out.printf(
                "%n%-" + NAME_WIDTH + "s %12s %12s %12s %12s%n",
                "",
                c.relation().first(),
                c.relation().second(),
                "difference",
                "same within");
        for (Difference d : c.differences()) {
            out.printf(
                    "%-" + NAME_WIDTH + "s %12s %12s %12s %12s%s%n",
                    d.measure().words(),
                    d.measure().format(d.first()),
                    d.measure().format(d.second()),
                    d.measure().formatDifference(d.difference()),
                    d.limit() == null
                            ? "not known"
                            : d.measure().format(d.limit().difference()),
                    d.exceeds() ? "  larger" : "");
        }
        spectra(c, out);
        out.println();
    }

    private static void spectra(Comparison c, PrintWriter out) {
        List<Double> centres = c.first().spectrum().centresHz();
        if (centres.isEmpty() || c.second().spectrum().centresHz().isEmpty()) {
            return;
        }
        out.printf(
                "%nSpectrum, third-octaves, dB re full scale squared per Hz%n%8s %10s %10s%n",
                "Hz", c.relation().first(), c.relation().second());
        for (int i = 0; i < centres.size(); i++) {
            out.printf(
                    "%8.0f %10.1f %10.1f%n",
                    centres.get(i),
                    c.first().spectrum().levelsDb().get(i),
                    c.second().spectrum().levelsDb().get(i));
        }
    }

    /** Today against the earlier takes. */
    public static void printUsual(List<Usual> usual, int earlier, PrintWriter out) {
        if (earlier < Usual.ENOUGH_TAKES) {
            out.printf(
                    "- %d earlier take(s): too few to know what is usual for this person; at least %d are needed.%n",
                    earlier, Usual.ENOUGH_TAKES);
        } else if (usual.stream().noneMatch(Usual::unusual)) {
            out.println(
                    "- Nothing lies outside what is usual for this person. That does not show that nothing has changed.");
        }
        for (Usual u : usual) {
            if (u.unusual()) {
                out.printf(
                        "- %s: today %s, usual %s (%s to %s in %d takes). This is unusual for this person.%n",
                        u.measure().words(),
                        u.measure().format(u.today()),
                        u.measure().format(u.median()),
                        u.measure().format(u.lowest()),
                        u.measure().format(u.highest()),
                        u.takes());
            }
        }
        Set<Measure> untold = EnumSet.copyOf(Comparability.OF_SOUNDS);
        usual.forEach(u -> untold.remove(u.measure()));
        if (!untold.isEmpty()) {
            out.printf(
                    "- Left out: %s. Of today's take or of the earlier ones no number of these says anything: such sounds can be there and be missed, or they cannot be compared.%n",
                    Comparability.words(untold));
        }
        out.printf("%n%-" + NAME_WIDTH + "s %12s %12s %25s%n", "", "today", "usual", "earlier takes");
        for (Usual u : usual) {
            out.printf(
                    "%-" + NAME_WIDTH + "s %12s %12s %25s%s%n",
                    u.measure().words(),
                    u.measure().format(u.today()),
                    u.measure().format(u.median()),
                    u.measure().format(u.lowest()) + " to " + u.measure().format(u.highest()),
                    u.unusual() ? "  unusual" : "");
        }
        out.println();
    }
}
