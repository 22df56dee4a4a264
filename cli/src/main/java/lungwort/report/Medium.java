package lungwort.report;

import java.util.List;

/** What a report is written for. */
enum Medium {
    /** A page with everything. */
    SCREEN(false, false, Pictures.ALL, Reasons.ALL),
    /** Paper, for who has two minutes. */
    PAPER(true, false, Pictures.LARGE, Reasons.ALL),
    /** Paper, where a larger round would need more than two pages: what says least is drawn together or left to the page. */
    CLOSE_PAPER(true, true, Pictures.LARGE, Reasons.ALL),
    /** The same without the reasons under takes that have nothing to tell. */
    CLOSER_PAPER(true, true, Pictures.LARGE, Reasons.TELLING),
    /** The same with small pictures. */
    TIGHT_PAPER(true, true, Pictures.SMALL, Reasons.TELLING),
    /** The same without pictures. */
    BARE_PAPER(true, true, Pictures.NONE, Reasons.TELLING),
    /** The same without the fingerprints of the recordings, and without earlier days. */
    SPARE_PAPER(true, true, Pictures.NONE, Reasons.TELLING),
    /** The same without the reasons under each take, where that is still too much. */
    BAREST_PAPER(true, true, Pictures.NONE, Reasons.NONE);

    /** Paper, from what holds most to what holds least. */
    static final List<Medium> PAPERS =
            List.of(PAPER, CLOSE_PAPER, CLOSER_PAPER, TIGHT_PAPER, BARE_PAPER, SPARE_PAPER, BAREST_PAPER);

    /** How pictures are shown. */
    private enum Pictures {
        ALL,
        LARGE,
        SMALL,
        NONE
    }

    /** Of which takes it says why they suggest what they do. */
    enum Reasons {
        ALL,
        /** Of those that suggest a sound, hold measured ones, or cannot be judged. */
        TELLING,
        NONE
    }

    private final boolean paper;
    private final boolean tight;
    private final Pictures pictures;
    private final Reasons reasons;

    Medium(boolean paper, boolean tight, Pictures pictures, Reasons reasons) {
        this.paper = paper;
        this.tight = tight;
        this.pictures = pictures;
        this.reasons = reasons;
    }

    boolean paper() {
        return paper;
    }

    boolean pictures() {
        return pictures != Pictures.NONE;
    }

    boolean tight() {
        return tight;
    }

    /** By which a stored recording is known to be the one that was judged. */
    boolean fingerprints() {
        return this != SPARE_PAPER && this != BAREST_PAPER;
    }

    /** The newest days, where no usual stands for them. */
    boolean course() {
        return tight && fingerprints();
    }

    Reasons reasons() {
        return reasons;
    }

    /** Classes for the style sheet. */
    String style() {
        return (tight ? "tight" : "") + (pictures == Pictures.SMALL ? " small-pictures" : "");
    }
}
