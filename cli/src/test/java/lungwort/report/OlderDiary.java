package lungwort.report;

import static org.assertj.core.api.Assertions.assertThat;

import java.nio.file.Path;
import java.sql.Connection;
import java.sql.DriverManager;
import java.sql.PreparedStatement;
import java.sql.SQLException;
import lungwort.diary.Diary;

/** What is refused today can still stand in a diary that was begun before. */
final class OlderDiary {
    private OlderDiary() {}

    /** Gives the only person of a diary a nickname that nobody checks. */
    static void nickname(Path diary, String nickname) throws SQLException {
        try (Connection connection = DriverManager.getConnection("jdbc:sqlite:" + diary.resolve(Diary.FILE_NAME));
                PreparedStatement update = connection.prepareStatement("update person set nickname = ?")) {
            update.setString(1, nickname);
            assertThat(update.executeUpdate()).isOne();
        }
    }
}
