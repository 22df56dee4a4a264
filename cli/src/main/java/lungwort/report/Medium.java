package lungwort.report;

/** What a report is written for. */
enum Medium {
    /** A page with everything. */
    SCREEN,
    /** Paper, for who has two minutes. */
    PAPER,
    /** Paper, where a large round would need more than two pages: what says least is drawn together or left to the page. */
    TIGHT_PAPER,
    /** The same without pictures, where that is still too much. */
    BARE_PAPER;

    boolean paper() {
        return this != SCREEN;
    }

    boolean pictures() {
        return this != BARE_PAPER;
    }

    boolean tight() {
        return this == TIGHT_PAPER || this == BARE_PAPER;
    }
}
