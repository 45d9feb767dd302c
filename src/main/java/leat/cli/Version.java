package leat.cli;

import picocli.CommandLine.IVersionProvider;

/** The version that the build wrote into the jar. */
final class Version implements IVersionProvider {

    @Override
    public String[] getVersion() {
        return new String[] {"leat " + text()};
    }

    static String text() {
        String version = Version.class.getPackage().getImplementationVersion();
        return version == null ? "unpackaged" : version;
    }
}
