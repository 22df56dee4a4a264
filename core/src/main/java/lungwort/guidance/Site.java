package lungwort.guidance;

import org.jspecify.annotations.Nullable;

/**
 * A place on the chest (or the neck) where one listens.
 *
 * @param face front, side, back or neck
 * @param height upper, middle or lower; null for the neck
 * @param side of the person who is listened to, not of who looks; null for the neck
 */
public record Site(
        Face face, @Nullable Height height, @Nullable Side side) {
    /** Over the windpipe. */
    public static final Site NECK = new Site(Face.NECK, null, null);

    public enum Face {
        BACK("back"),
        SIDE("side"),
        FRONT("front"),
        NECK("neck");

        private final String id;

        Face(String id) {
            this.id = id;
        }

        public String id() {
            return id;
        }
    }

    public enum Height {
        UPPER("upper"),
        MIDDLE("middle"),
        LOWER("lower");

        private final String id;

        Height(String id) {
            this.id = id;
        }

        public String id() {
            return id;
        }
    }

    public enum Side {
        LEFT("left"),
        RIGHT("right");

        private final String id;

        Side(String id) {
            this.id = id;
        }

        public String id() {
            return id;
        }
    }

    public Site {
        if ((face == Face.NECK) != (height == null) || (face == Face.NECK) != (side == null)) {
            throw new IllegalArgumentException("site %s %s %s".formatted(face, height, side));
        }
    }

    /** Name in files and on the command line, for example {@code back-lower-left}; {@code neck}. */
    public String id() {
        return height == null || side == null ? face.id() : face.id() + "-" + height.id() + "-" + side.id();
    }

    /** Name for people, for example "back, lower, left". */
    public String words() {
        return height == null || side == null
                ? "neck, over the windpipe"
                : face.id() + ", " + height.id() + ", " + side.id();
    }

    /** The same face and height on the other side; null for the neck. */
    public @Nullable Site otherSide() {
        return side == null ? null : new Site(face, height, side == Side.LEFT ? Side.RIGHT : Side.LEFT);
    }

    /** True for every site but the neck. */
    public boolean chest() {
        return face != Face.NECK;
    }
}
