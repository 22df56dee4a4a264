package lungwort.cli;

import lungwort.audio.ReadingOptions;
import picocli.CommandLine.Option;

/** Which channel of a stereo recording is taken. */
final class ChannelOption {
    @Option(
            names = "--channel",
            paramLabel = "mean|left|right",
            description =
                    "Which channel of a stereo recording is taken: left where a stethoscope is on the left and a room microphone on the right (default: ${DEFAULT-VALUE}).")
    private Channel channel = Channel.mean;

    ReadingOptions reading() {
        return new ReadingOptions(channel.meaning);
    }

    /** True if one channel was asked for. */
    boolean one() {
        return channel != Channel.mean;
    }

    /** As people call it: "left". */
    String words() {
        return channel.name();
    }

    /** As written on the command line. */
    private enum Channel {
        mean(ReadingOptions.Channels.MEAN),
        left(ReadingOptions.Channels.LEFT),
        right(ReadingOptions.Channels.RIGHT);

        private final ReadingOptions.Channels meaning;

        Channel(ReadingOptions.Channels meaning) {
            this.meaning = meaning;
        }
    }
}
