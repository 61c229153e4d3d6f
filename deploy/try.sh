#!/bin/sh
# Tries Weekwright: "sh deploy/try.sh" plays the sample week, "sh deploy/try.sh chat" chats in this terminal.
set -eu

clone=$(cd "$(dirname "$0")/.." && pwd)
. "$clone/deploy/environment.sh"

case ${1:-week} in
week)
    make_environment .venv-try constraints.txt
    "$environment/bin/weekwright" rehearse "$source/sample_config/week.txt" --settings "$source/sample_config/settings.toml"
    echo
    echo "Chat here:         sh $clone/deploy/try.sh chat"
    echo "Connect Telegram:  ask @BotFather there for a token with /newbot, then start the bot with"
    echo "                   WEEKWRIGHT_TOKEN=the-token $environment/bin/weekwright run"
    ;;
chat)
    make_environment .venv-try constraints.txt
    exec "$environment/bin/weekwright" chat
    ;;
*)
    echo "usage: sh deploy/try.sh [chat]" >&2
    exit 2
    ;;
esac
