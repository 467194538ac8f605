# The service as an image. Build: docker build -t hangpoint .
# Run: docker run --read-only --cap-drop ALL --security-opt no-new-privileges -p 8000:8000 \
#          -e HANGPOINT_ACCESS=tokens -e HANGPOINT_TOKENS=... hangpoint
# It listens on all interfaces, so HANGPOINT_ACCESS has to say who lets callers in; without it the container says so and
# ends. It writes nothing, runs as a user without rights, and takes catalogues of your own through a read-only mount.
ARG BASE=python:3.11-slim-bookworm

FROM ${BASE} AS build
ENV PIP_DISABLE_PIP_VERSION_CHECK=1 PIP_NO_CACHE_DIR=1
COPY service/requirements.lock /build/
RUN python -m venv --without-pip /opt/hangpoint \
    && python -m pip --python /opt/hangpoint/bin/python install --only-binary :all: --require-hashes \
        -r /build/requirements.lock
COPY service/hangpoint /build/hangpoint
RUN cp -r /build/hangpoint "$(/opt/hangpoint/bin/python -c 'import sysconfig; print(sysconfig.get_path("purelib"))')/" \
    && printf '#!/opt/hangpoint/bin/python\nfrom hangpoint.cli import main\nmain()\n' > /opt/hangpoint/bin/hangpoint \
    && chmod 755 /opt/hangpoint/bin/hangpoint \
    && /opt/hangpoint/bin/python -m compileall -q /opt/hangpoint/lib \
    && /opt/hangpoint/bin/hangpoint --version

FROM ${BASE}
COPY --from=build /opt/hangpoint /opt/hangpoint
ENV PATH=/opt/hangpoint/bin:$PATH \
    PYTHONDONTWRITEBYTECODE=1 \
    PYTHONUNBUFFERED=1 \
    HANGPOINT_HOST=0.0.0.0 \
    HANGPOINT_PORT=8000
USER 10001:10001
WORKDIR /
EXPOSE 8000
HEALTHCHECK --interval=30s --timeout=10s --start-period=20s CMD ["hangpoint", "health"]
ENTRYPOINT ["hangpoint"]
CMD ["serve"]
