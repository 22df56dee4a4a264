package lungwort.page;

import java.io.IOException;
import java.io.InputStream;
import java.io.OutputStream;
import java.net.Socket;
import java.nio.charset.StandardCharsets;
import java.util.ArrayList;
import java.util.List;

/** Requests byte by byte, with headers that no browser and no client library would let a test set. */
final class RawHttp {
    private final int port;
    private final List<String> headers = new ArrayList<>();

    RawHttp(int port) {
        this.port = port;
    }

    record Response(int status, String head, String body) {
        String header(String name) {
            return head.lines()
                    .filter(l -> l.toLowerCase(java.util.Locale.ROOT)
                            .startsWith(name.toLowerCase(java.util.Locale.ROOT) + ":"))
                    .map(l -> l.substring(name.length() + 1).strip())
                    .findFirst()
                    .orElse("");
        }
    }

    RawHttp with(String header) {
        headers.add(header);
        return this;
    }

    Response get(String path) throws IOException {
        return send("GET", path, new byte[0], -1);
    }

    Response send(String method, String path, String body) throws IOException {
        byte[] bytes = body.getBytes(StandardCharsets.UTF_8);
        return send(method, path, bytes, bytes.length);
    }

    /** @param announced the Content-Length, which need not be true; -1 for none */
    Response send(String method, String path, byte[] body, long announced) throws IOException {
        try (Socket socket = new Socket("127.0.0.1", port)) {
            socket.setSoTimeout(20_000);
            StringBuilder head = new StringBuilder(method + " " + path + " HTTP/1.1\r\nConnection: close\r\n");
            if (headers.stream().noneMatch(h -> h.startsWith("Host:"))) {
                head.append("Host: 127.0.0.1:").append(port).append("\r\n");
            }
            headers.forEach(h -> head.append(h).append("\r\n"));
            if (announced >= 0) {
                head.append("Content-Length: ").append(announced).append("\r\n");
            }
            OutputStream out = socket.getOutputStream();
            out.write(head.append("\r\n").toString().getBytes(StandardCharsets.UTF_8));
            out.write(body);
            out.flush();
            return response(socket.getInputStream());
        }
    }

    private static Response response(InputStream in) throws IOException {
        String all = new String(in.readAllBytes(), StandardCharsets.UTF_8);
        int gap = all.indexOf("\r\n\r\n");
        return new Response(Integer.parseInt(all.split(" ", 3)[1]), all.substring(0, gap), all.substring(gap + 4));
    }
}
