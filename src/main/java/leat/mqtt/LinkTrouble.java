package leat.mqtt;

import java.io.EOFException;
import java.net.ConnectException;
import java.net.NoRouteToHostException;
import java.net.SocketTimeoutException;
import java.net.UnknownHostException;
import java.util.Optional;
import leat.signal.PlainText;
import leat.tls.TlsTrouble;
import leat.words.FaultWords;
import org.eclipse.paho.client.mqttv3.MqttException;

/** Expected trouble with a broker, in plain words that name the endpoint and what to check. */
final class LinkTrouble extends Exception {

    private static final long serialVersionUID = 1L;
    private static final int LONGEST = 300;

    LinkTrouble(String endpoint, String words) {
        super(
                PlainText.harmless(FaultWords.english("where", endpoint, words), LONGEST),
                null,
                false,
                false);
    }

    static LinkTrouble of(String endpoint, Throwable cause) {
        return new LinkTrouble(endpoint, words(cause));
    }

    private static String words(Throwable cause) {
        if (cause instanceof MqttException mqtt) {
            return mqtt.getCause() == null ? words(mqtt) : words(mqtt.getCause());
        }
        if (cause instanceof ConnectException || cause instanceof NoRouteToHostException) {
            return FaultWords.english("broker.unreachable");
        }
        if (cause instanceof UnknownHostException) {
            return FaultWords.english("host");
        }
        if (cause instanceof SocketTimeoutException) {
            return FaultWords.english("broker.no-answer");
        }
        Optional<String> tls = TlsTrouble.words(cause);
        if (tls.isPresent()) {
            return tls.get();
        }
        if (cause instanceof EOFException) {
            return FaultWords.english("broker.closed");
        }
        return String.valueOf(cause);
    }

    private static String words(MqttException mqtt) {
        return switch (mqtt.getReasonCode()) {
            case MqttException.REASON_CODE_INVALID_PROTOCOL_VERSION ->
                    FaultWords.english("broker.version");
            case MqttException.REASON_CODE_INVALID_CLIENT_ID ->
                    FaultWords.english("broker.client-id");
            case MqttException.REASON_CODE_BROKER_UNAVAILABLE ->
                    FaultWords.english("broker.unavailable");
            case MqttException.REASON_CODE_FAILED_AUTHENTICATION ->
                    FaultWords.english("broker.login");
            case MqttException.REASON_CODE_NOT_AUTHORIZED -> FaultWords.english("broker.rights");
            case MqttException.REASON_CODE_CLIENT_TIMEOUT ->
                    FaultWords.english("broker.keep-alive");
            case MqttException.REASON_CODE_CONNECTION_LOST,
                    MqttException.REASON_CODE_CLIENT_NOT_CONNECTED,
                    MqttException.REASON_CODE_CLIENT_DISCONNECTING,
                    MqttException.REASON_CODE_CLIENT_CLOSED ->
                    FaultWords.english("broker.lost");
            case MqttException.REASON_CODE_MAX_INFLIGHT -> FaultWords.english("broker.inflight");
            default -> mqtt.getMessage() + " (" + mqtt.getReasonCode() + ")";
        };
    }
}
