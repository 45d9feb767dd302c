package leat.mqtt;

import java.io.EOFException;
import java.net.ConnectException;
import java.net.NoRouteToHostException;
import java.net.SocketTimeoutException;
import java.net.UnknownHostException;
import java.util.Optional;
import leat.signal.PlainText;
import leat.tls.TlsTrouble;
import org.eclipse.paho.client.mqttv3.MqttException;

/** Expected trouble with a broker, in plain words that name the endpoint and what to check. */
final class LinkTrouble extends Exception {

    private static final long serialVersionUID = 1L;
    private static final int LONGEST = 300;

    LinkTrouble(String endpoint, String words) {
        super(PlainText.harmless(endpoint + ": " + words, LONGEST), null, false, false);
    }

    static LinkTrouble of(String endpoint, Throwable cause) {
        return new LinkTrouble(endpoint, words(cause));
    }

    private static String words(Throwable cause) {
        if (cause instanceof MqttException mqtt) {
            return mqtt.getCause() == null ? words(mqtt) : words(mqtt.getCause());
        }
        if (cause instanceof ConnectException || cause instanceof NoRouteToHostException) {
            return "connection refused or no way there; check that the broker runs, and the port";
        }
        if (cause instanceof UnknownHostException) {
            return "host name not known; check the name, or write the address";
        }
        if (cause instanceof SocketTimeoutException) {
            return "no answer; check the network and the address";
        }
        Optional<String> tls = TlsTrouble.words(cause);
        if (tls.isPresent()) {
            return tls.get();
        }
        if (cause instanceof EOFException) {
            return "the broker closed the connection; check that it runs, and that no other"
                    + " client uses the same client id";
        }
        return String.valueOf(cause);
    }

    private static String words(MqttException mqtt) {
        return switch (mqtt.getReasonCode()) {
            case MqttException.REASON_CODE_INVALID_PROTOCOL_VERSION ->
                    "the broker does not speak MQTT 3.1.1";
            case MqttException.REASON_CODE_INVALID_CLIENT_ID -> "the broker refuses the client id";
            case MqttException.REASON_CODE_BROKER_UNAVAILABLE -> "the broker says: not available";
            case MqttException.REASON_CODE_FAILED_AUTHENTICATION ->
                    "the broker refuses user name or password";
            case MqttException.REASON_CODE_NOT_AUTHORIZED ->
                    "the broker says: not authorized; check user name, password and its rights";
            case MqttException.REASON_CODE_CLIENT_TIMEOUT ->
                    "no reply to a keep-alive; check the network";
            case MqttException.REASON_CODE_CONNECTION_LOST,
                    MqttException.REASON_CODE_CLIENT_NOT_CONNECTED,
                    MqttException.REASON_CODE_CLIENT_DISCONNECTING,
                    MqttException.REASON_CODE_CLIENT_CLOSED ->
                    "connection lost";
            case MqttException.REASON_CODE_MAX_INFLIGHT ->
                    "too many messages wait for the broker's acknowledgement";
            default -> mqtt.getMessage() + " (" + mqtt.getReasonCode() + ")";
        };
    }
}
