# The service behind a proxy or tokens: set HANGPOINT_ACCESS, or it ends with a sentence that says so.

FROM python:3.12-slim AS build
WORKDIR /build
RUN python -m venv /opt/hangpoint
COPY service/requirements.lock service/requirements.lock
RUN /opt/hangpoint/bin/pip install --no-cache-dir --only-binary :all: --require-hashes -r service/requirements.lock
COPY pyproject.toml README.md ./
COPY service service
RUN /opt/hangpoint/bin/pip install --no-cache-dir --no-deps .

FROM python:3.12-slim
RUN useradd --system --no-create-home --shell /usr/sbin/nologin hangpoint
COPY --from=build /opt/hangpoint /opt/hangpoint
ENV PATH=/opt/hangpoint/bin:$PATH \
    PYTHONDONTWRITEBYTECODE=1 \
    PYTHONUNBUFFERED=1 \
    HANGPOINT_HOST=0.0.0.0 \
    HANGPOINT_PORT=8000
USER hangpoint
WORKDIR /
EXPOSE 8000
HEALTHCHECK --interval=30s --timeout=5s --start-period=10s --retries=3 \
    CMD ["python", "-c", "import os, urllib.request as u; u.urlopen(f'http://127.0.0.1:{os.environ[\"HANGPOINT_PORT\"]}/livez', timeout=4)"]
ENTRYPOINT ["hangpoint"]
CMD ["serve"]
