package leat.deliver;

import static java.nio.charset.StandardCharsets.UTF_8;
import static java.util.Objects.requireNonNull;

import java.net.http.HttpClient;
import java.net.http.HttpHeaders;
import java.net.http.HttpRequest;
import java.net.http.HttpResponse;
import java.time.DateTimeException;
import java.time.Duration;
import java.time.Instant;
import java.time.ZonedDateTime;
import java.time.format.DateTimeFormatter;
import java.util.concurrent.CompletableFuture;
import java.util.concurrent.ExecutionException;
import java.util.concurrent.TimeUnit;
import java.util.concurrent.TimeoutException;
import java.util.function.LongSupplier;
import leat.config.RouteSettings;
import leat.signal.PlainText;
import leat.store.Message;
import leat.words.FaultWords;

/**
 * A program that takes the JSON of each message by HTTP POST, signed, see {@link RequestSigner}. An
 * answer 2xx takes the message over; redirects are not followed.
 *
 * <p>An answer 4xx about the message refuses it for good. One about the way in (401, 403, 404,
 * 407), about the moment (408, 425, 429), any 5xx, a redirect or no answer at all is "not now":
 * somebody can mend that, and the message must not be lost meanwhile.
 *
 * <p>Thread-safe. The library's client keeps a thread and a connection of its own until it is
 * garbage; Java 17 cannot close it.
 */
public final class WebhookRoute implements Route {

    private static final Duration LONGEST_ASKED = Duration.ofDays(1);
    private static final int LONGEST_ID = 300;

    private final RouteSettings.Webhook settings;
    private final RequestSigner signer;
    private final LongSupplier epochSeconds;
    private final String endpoint;
    private final HttpClient client;

    /**
     * @param epochSeconds the time of day, seconds since 1970
     * @throws IllegalArgumentException when the settings come without their secret
     */
    public WebhookRoute(RouteSettings.Webhook settings, LongSupplier epochSeconds) {
        this.settings = requireNonNull(settings, "settings");
        this.epochSeconds = requireNonNull(epochSeconds, "epochSeconds");
        this.signer =
                new RequestSigner(
                        settings.secret()
                                .orElseThrow(
                                        () -> new IllegalArgumentException("no secret fetched")),
                        settings.name(),
                        settings.url());
        this.endpoint = settings.url().getScheme() + "://" + settings.url().getAuthority();
        this.client =
                HttpClient.newBuilder()
                        .version(HttpClient.Version.HTTP_1_1)
                        .followRedirects(HttpClient.Redirect.NEVER)
                        .connectTimeout(settings.timeout())
                        .sslContext(settings.trust().context())
                        .build();
    }

    @Override
    public String name() {
        return settings.name();
    }

    @Override
    public void start(Runnable reachable) {
        // it is found out at the next try
    }

    @Override
    public DeliveryResult deliver(Message message) {
        CompletableFuture<HttpResponse<Void>> answer =
                client.sendAsync(request(message), HttpResponse.BodyHandlers.discarding());
        try {
            return judge(answer.get(settings.timeout().toMillis(), TimeUnit.MILLISECONDS));
        } catch (TimeoutException e) {
            return notNow(
                    FaultWords.english(
                            "webhook.no-answer",
                            Double.toString(settings.timeout().toMillis() / 1000.0)));
        } catch (ExecutionException e) {
            return notNow(NetTrouble.words(e.getCause()));
        } catch (InterruptedException e) {
            Thread.currentThread().interrupt();
            return notNow(FaultWords.english("interrupted"));
        } finally {
            answer.cancel(true);
        }
    }

    private HttpRequest request(Message message) {
        byte[] body = message.json().getBytes(UTF_8);
        HttpRequest.Builder request =
                HttpRequest.newBuilder(settings.url())
                        .header("User-Agent", "leat")
                        .POST(HttpRequest.BodyPublishers.ofByteArray(body));
        signer.headers(ascii(message.id()), body, epochSeconds.getAsLong())
                .forEach(request::header);
        return request.build();
    }

    /** Ids have no other characters; a header must not. */
    private static String ascii(String id) {
        return PlainText.harmless(id, LONGEST_ID).replaceAll("[^ -~]", "?");
    }

    private DeliveryResult judge(HttpResponse<Void> answer) {
        int status = answer.statusCode();
        if (status / 100 == 2) {
            return DeliveryResult.DELIVERED;
        }
        String said = Integer.toString(status);
        return switch (status) {
            case 401, 403, 407 -> notNow(FaultWords.english("webhook.secret", said));
            case 404 -> notNow(FaultWords.english("webhook.path", said));
            case 408, 425 -> notNow(FaultWords.english("webhook.answers", said));
            case 429 ->
                    DeliveryResult.notNow(
                            where(FaultWords.english("webhook.too-many", said)),
                            asked(answer.headers()));
            default -> other(status, said, answer.headers());
        };
    }

    private DeliveryResult other(int status, String said, HttpHeaders headers) {
        return switch (status / 100) {
            case 3 -> notNow(FaultWords.english("webhook.redirect", said));
            case 4 -> DeliveryResult.refused(where(FaultWords.english("webhook.refused", said)));
            default ->
                    DeliveryResult.notNow(
                            where(FaultWords.english("webhook.log", said)), asked(headers));
        };
    }

    /** Retry-After (RFC 9110, 10.2.3): seconds, or a date. Zero when it is absent or unreadable. */
    private Duration asked(HttpHeaders headers) {
        String written = headers.firstValue("Retry-After").orElse("").trim();
        try {
            Duration asked =
                    written.matches("[0-9]{1,9}")
                            ? Duration.ofSeconds(Long.parseLong(written))
                            : Duration.between(
                                    Instant.ofEpochSecond(epochSeconds.getAsLong()),
                                    ZonedDateTime.parse(
                                            written, DateTimeFormatter.RFC_1123_DATE_TIME));
            if (asked.isNegative()) {
                return Duration.ZERO;
            }
            return asked.compareTo(LONGEST_ASKED) > 0 ? LONGEST_ASKED : asked;
        } catch (DateTimeException e) {
            return Duration.ZERO;
        }
    }

    private DeliveryResult notNow(String why) {
        return DeliveryResult.notNow(where(why));
    }

    private String where(String why) {
        return FaultWords.english("where", endpoint, why);
    }

    @Override
    public void close() {
        // the client ends by itself
    }
}
