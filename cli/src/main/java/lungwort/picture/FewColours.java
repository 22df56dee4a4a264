package lungwort.picture;

import java.awt.image.BufferedImage;
import java.awt.image.IndexColorModel;
import java.util.Collections;
import java.util.Comparator;
import java.util.HashMap;
import java.util.LinkedHashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Set;

/** A picture in 256 colours: as a PNG it takes about a third, which a report of a whole round, with a picture of every take, needs. */
final class FewColours {
    private static final int COLOURS = 256;

    /** Steps from quiet to loud: of the 45 dB that a picture spans at least, one is 0.7 dB, which no eye tells from the next. */
    private static final int LEVELS = 64;

    /** A colour nearer than this to one of the levels, as the sum of squared differences of red, green and blue, is taken for it. */
    private static final int NEAR = 48;

    /** Of the other colours, so many for their frequency, as of paper, letters and marks; the rest for being unlike those. */
    private static final int FREQUENT = 64;

    private FewColours() {}

    /**
     * The same picture, whose levels of sound are told in {@value #LEVELS} steps. Paper, letters and marks keep their colours; where their soft edges have more colours than are left, some take
     * the nearest one.
     *
     * @param image RGB
     */
    static BufferedImage of(BufferedImage image) {
        int width = image.getWidth();
        int[] pixels = image.getRGB(0, 0, width, image.getHeight(), null, 0, width);
        Map<Integer, Integer> counts = new HashMap<>();
        for (int rgb : pixels) {
            counts.merge(rgb & 0xffffff, 1, Integer::sum);
        }
        int[] palette = palette(counts);
        Map<Integer, Integer> indices = new HashMap<>();
        byte[] red = new byte[palette.length];
        byte[] green = new byte[palette.length];
        byte[] blue = new byte[palette.length];
        for (int i = 0; i < palette.length; i++) {
            red[i] = (byte) (palette[i] >> 16);
            green[i] = (byte) (palette[i] >> 8);
            blue[i] = (byte) palette[i];
            indices.putIfAbsent(palette[i], i);
        }
        BufferedImage small = new BufferedImage(
                width,
                image.getHeight(),
                BufferedImage.TYPE_BYTE_INDEXED,
                new IndexColorModel(8, palette.length, red, green, blue));
        for (int i = 0; i < pixels.length; i++) {
            int index = indices.computeIfAbsent(pixels[i] & 0xffffff, rgb -> nearest(palette, rgb));
            small.getRaster().setSample(i % width, i / width, 0, index);
        }
        return small;
    }

    /** The steps of the levels, then the most frequent of the other colours, then each time the one that is furthest from all so far. */
    private static int[] palette(Map<Integer, Integer> counts) {
        Set<Integer> palette = new LinkedHashSet<>();
        for (int level = 0; level < LEVELS; level++) {
            palette.add(Palette.levelRgb((double) level / (LEVELS - 1)));
        }
        // How far each colour is from the nearest one of the palette; in the order of frequency.
        Map<Integer, Integer> apart = new LinkedHashMap<>();
        counts.entrySet().stream()
                .sorted(Map.Entry.<Integer, Integer>comparingByValue(Comparator.reverseOrder())
                        .thenComparing(Map.Entry.comparingByKey()))
                .forEach(entry -> apart.put(entry.getKey(), Integer.MAX_VALUE));
        palette.forEach(rgb -> comesNear(apart, rgb));
        List<Integer> frequent = apart.keySet().stream()
                .filter(rgb -> apart.getOrDefault(rgb, 0) > NEAR)
                .limit(FREQUENT)
                .toList();
        for (int rgb : frequent) {
            palette.add(rgb);
            comesNear(apart, rgb);
        }
        while (palette.size() < COLOURS) {
            int furthest = Collections.max(apart.entrySet(), Map.Entry.comparingByValue())
                    .getKey();
            palette.add(furthest);
            if (apart.getOrDefault(furthest, 0) == 0) {
                break;
            }
            comesNear(apart, furthest);
        }
        return palette.stream().mapToInt(Integer::intValue).toArray();
    }

    private static void comesNear(Map<Integer, Integer> apart, int colour) {
        apart.replaceAll((rgb, distance) -> Math.min(distance, distance(rgb, colour)));
    }

    private static int nearest(int[] palette, int rgb) {
        int nearest = 0;
        for (int i = 1; i < palette.length; i++) {
            if (distance(palette[i], rgb) < distance(palette[nearest], rgb)) {
                nearest = i;
            }
        }
        return nearest;
    }

    /** Sum of the squared differences of red, green and blue, 0 to 195075. */
    private static int distance(int a, int b) {
        int red = (a >> 16 & 0xff) - (b >> 16 & 0xff);
        int green = (a >> 8 & 0xff) - (b >> 8 & 0xff);
        int blue = (a & 0xff) - (b & 0xff);
        return red * red + green * green + blue * blue;
    }
}
