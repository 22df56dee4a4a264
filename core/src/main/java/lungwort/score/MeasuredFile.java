package lungwort.score;

import java.io.ByteArrayInputStream;
import java.io.ByteArrayOutputStream;
import java.io.DataInputStream;
import java.io.DataOutputStream;
import java.io.IOException;
import java.util.ArrayList;
import java.util.List;
import java.util.zip.CRC32;
import lungwort.breath.BreathPhase;
import lungwort.breath.PhaseSpan;
import lungwort.feature.TimeSpan;
import lungwort.quality.Quality;
import lungwort.quality.QualityIssue;
import lungwort.sound.BreathAgreement;
import lungwort.sound.ContinuousSound;
import lungwort.sound.Crackle;
import lungwort.sound.MeasuredSound;
import lungwort.sound.SoundKind;

/**
 * What was measured in one recording, as bytes: plain numbers with a check sum at the end. Nothing in it is ever executed or deserialised as objects.
 *
 * @param segments features of each marked segment
 * @param spans the windows
 * @param windows features of each window
 * @param recording features of the whole
 * @param image the recording as {@link lungwort.feature.MelImage#bytes} says
 * @param examined what an examination measures beside
 */
@SuppressWarnings("ArrayRecordComponent") // numbers on their way, never compared
record MeasuredFile(
        float[][] segments,
        List<TimeSpan> spans,
        float[][] windows,
        float[] recording,
        byte[][] image,
        Examined examined) {
    private static final int SUM_BYTES = 8;

    byte[] bytes() {
        try {
            ByteArrayOutputStream bytes = new ByteArrayOutputStream();
            DataOutputStream out = new DataOutputStream(bytes);
            write(out, segments);
            write(out, windows);
            for (TimeSpan span : spans) {
                out.writeDouble(span.startSeconds());
                out.writeDouble(span.endSeconds());
            }
            write(out, new float[][] {recording});
            write(out, image);
            write(out, examined);
            out.writeLong(sum(bytes.toByteArray(), bytes.size()));
            return bytes.toByteArray();
        } catch (IOException e) {
            throw new IllegalStateException("writing to memory cannot fail", e);
        }
    }

    /** @throws IOException if the bytes are cut or damaged */
    static MeasuredFile of(byte[] bytes) throws IOException {
        int length = bytes.length - SUM_BYTES;
        if (length < 0
                || sum(bytes, length)
                        != new DataInputStream(new ByteArrayInputStream(bytes, length, SUM_BYTES)).readLong()) {
            throw new IOException("damaged");
        }
        DataInputStream in = new DataInputStream(new ByteArrayInputStream(bytes, 0, length));
        float[][] segments = rows(in);
        float[][] windows = rows(in);
        List<TimeSpan> spans = new ArrayList<>();
        for (int i = 0; i < windows.length; i++) {
            spans.add(new TimeSpan(in.readDouble(), in.readDouble()));
        }
        return new MeasuredFile(segments, spans, windows, rows(in)[0], image(in), examined(in));
    }

    private static long sum(byte[] bytes, int length) {
        CRC32 crc = new CRC32();
        crc.update(bytes, 0, length);
        return crc.getValue();
    }

    private static void write(DataOutputStream out, float[][] rows) throws IOException {
        out.writeInt(rows.length);
        for (float[] row : rows) {
            out.writeInt(row.length);
            for (float v : row) {
                out.writeFloat(v);
            }
        }
    }

    private static void write(DataOutputStream out, byte[][] image) throws IOException {
        out.writeInt(image.length);
        for (byte[] row : image) {
            out.writeInt(row.length);
            out.write(row);
        }
    }

    private static byte[][] image(DataInputStream in) throws IOException {
        byte[][] image = new byte[in.readInt()][];
        for (int i = 0; i < image.length; i++) {
            image[i] = new byte[in.readInt()];
            in.readFully(image[i]);
        }
        return image;
    }

    private static float[][] rows(DataInputStream in) throws IOException {
        float[][] rows = new float[in.readInt()][];
        for (int i = 0; i < rows.length; i++) {
            rows[i] = new float[in.readInt()];
            for (int j = 0; j < rows[i].length; j++) {
                rows[i][j] = in.readFloat();
            }
        }
        return rows;
    }

    private static void write(DataOutputStream out, Examined examined) throws IOException {
        Quality quality = examined.quality();
        out.writeBoolean(quality.usable());
        out.writeInt(quality.findings().size());
        for (Quality.Finding finding : quality.findings()) {
            out.writeUTF(finding.issue().name());
            out.writeBoolean(finding.grave());
            out.writeUTF(finding.detail());
        }
        out.writeInt(quality.events().size());
        for (Quality.Event event : quality.events()) {
            out.writeUTF(event.kind().name());
            out.writeDouble(event.startSeconds());
            out.writeDouble(event.endSeconds());
        }
        out.writeInt(examined.sounds().size());
        for (MeasuredSound sound : examined.sounds()) {
            write(out, sound);
        }
        out.writeDouble(examined.agreement().deviations());
        write(out, examined.agreement().places());
        out.writeInt(examined.phases().size());
        for (PhaseSpan phase : examined.phases()) {
            out.writeDouble(phase.startSeconds());
            out.writeDouble(phase.endSeconds());
            out.writeUTF(phase.phase().name());
            out.writeDouble(phase.confidence());
        }
        out.writeDouble(examined.durationSeconds());
        write(out, examined.measures());
    }

    private static void write(DataOutputStream out, List<Double> numbers) throws IOException {
        out.writeInt(numbers.size());
        for (double number : numbers) {
            out.writeDouble(number);
        }
    }

    private static List<Double> numbers(DataInputStream in) throws IOException {
        List<Double> numbers = new ArrayList<>();
        for (int n = in.readInt(); n > 0; n--) {
            numbers.add(in.readDouble());
        }
        return numbers;
    }

    private static Examined examined(DataInputStream in) throws IOException {
        boolean usable = in.readBoolean();
        List<Quality.Finding> findings = new ArrayList<>();
        for (int n = in.readInt(); n > 0; n--) {
            findings.add(new Quality.Finding(QualityIssue.valueOf(in.readUTF()), in.readBoolean(), in.readUTF()));
        }
        List<Quality.Event> events = new ArrayList<>();
        for (int n = in.readInt(); n > 0; n--) {
            events.add(new Quality.Event(Quality.EventKind.valueOf(in.readUTF()), in.readDouble(), in.readDouble()));
        }
        List<MeasuredSound> sounds = new ArrayList<>();
        for (int n = in.readInt(); n > 0; n--) {
            sounds.add(sound(in));
        }
        BreathAgreement agreement = new BreathAgreement(in.readDouble(), numbers(in));
        List<PhaseSpan> phases = new ArrayList<>();
        for (int n = in.readInt(); n > 0; n--) {
            phases.add(new PhaseSpan(
                    in.readDouble(), in.readDouble(), BreathPhase.valueOf(in.readUTF()), in.readDouble()));
        }
        double durationSeconds = in.readDouble();
        return new Examined(
                new Quality(usable, findings, events), sounds, agreement, phases, durationSeconds, numbers(in));
    }

    private static void write(DataOutputStream out, MeasuredSound sound) throws IOException {
        out.writeUTF(sound.kind().name());
        out.writeDouble(sound.startSeconds());
        out.writeDouble(sound.endSeconds());
        out.writeDouble(sound.prominenceDb());
        if (sound instanceof ContinuousSound tone) {
            out.writeDouble(tone.dominantHz());
            out.writeInt(tone.harmonics());
            out.writeBoolean(tone.polyphonic());
            out.writeDouble(tone.continuity());
            out.writeInt(tone.track().size());
            for (ContinuousSound.TrackPoint point : tone.track()) {
                out.writeDouble(point.seconds());
                out.writeDouble(point.hz());
            }
        } else if (sound instanceof Crackle crackle) {
            out.writeDouble(crackle.initialDeflectionWidthMs());
            out.writeDouble(crackle.twoCycleDurationMs());
            out.writeDouble(crackle.largestDeflectionWidthMs());
        }
    }

    private static MeasuredSound sound(DataInputStream in) throws IOException {
        SoundKind kind = SoundKind.valueOf(in.readUTF());
        double start = in.readDouble();
        double end = in.readDouble();
        double prominenceDb = in.readDouble();
        if (!kind.continuous()) {
            return new Crackle(kind, start, end, in.readDouble(), in.readDouble(), in.readDouble(), prominenceDb);
        }
        double dominantHz = in.readDouble();
        int harmonics = in.readInt();
        boolean polyphonic = in.readBoolean();
        double continuity = in.readDouble();
        List<ContinuousSound.TrackPoint> track = new ArrayList<>();
        for (int n = in.readInt(); n > 0; n--) {
            track.add(new ContinuousSound.TrackPoint(in.readDouble(), in.readDouble()));
        }
        return new ContinuousSound(
                kind, start, end, track, dominantHz, harmonics, polyphonic, continuity, prominenceDb);
    }
}
